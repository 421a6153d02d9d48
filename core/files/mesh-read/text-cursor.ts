import { FormatError, type FormatErrorCode } from '../format-error.js';
import { checkCoordinate } from './coordinate.js';
import { numberAt } from './number-text.js';

const [tab, lineFeed, carriageReturn, space, backslash] = [9, 10, 13, 32, 92];
/** Tab, line feed, vertical tab, form feed, carriage return, space. */
const isBlank = (c: number): boolean => c === space || (c >= tab && c <= carriageReturn);

/** Goes over a text word by word and knows its line. Lines end with LF, CR LF or CR. */
export class TextCursor {
  /** The last word stands in `bytes` from here … */
  start = 0;
  /** … to here. */
  end = 0;

  constructor(
    readonly bytes: Uint8Array,
    /** Where the text begins, … */
    at = 0,
    /** … and the line that is. */
    public line = 1,
  ) {
    this.start = this.end = at;
  }

  /** Goes to the next word, over the ends of lines. False at the end of the text. */
  next(): boolean {
    const { bytes } = this;
    let at = this.end;
    while (at < bytes.length && isBlank(bytes[at]!)) at = this.#step(at);
    return this.#take(at);
  }

  /** Goes to the next word of this line. False at its end. */
  nextInLine(): boolean {
    const { bytes } = this;
    let at = this.end;
    for (; at < bytes.length; at++) {
      const c = bytes[at]!;
      if (c === lineFeed || c === carriageReturn) break;
      // A backslash before the line's end: the line goes on.
      if (c === backslash && this.#endsLine(at + 1)) at = this.#step(at + 1) - 1;
      else if (!isBlank(c)) return this.#take(at);
    }
    this.start = this.end = at;
    return false;
  }

  /** Goes to the start of the next line. False at the end of the text. */
  nextLine(): boolean {
    const { bytes } = this;
    let at = this.end;
    for (; at < bytes.length; at++) {
      const c = bytes[at]!;
      if (c === backslash && this.#endsLine(at + 1)) at = this.#step(at + 1) - 1;
      else if (c === lineFeed || c === carriageReturn) break;
    }
    this.start = this.end = at < bytes.length ? this.#step(at) : at;
    return this.end < bytes.length;
  }

  /** Whether the last word is `word`, which is in small letters; the text may have large ones. */
  is(word: string): boolean {
    if (this.end - this.start !== word.length) return false;
    for (let i = 0; i < word.length; i++) {
      const c = this.bytes[this.start + i]!;
      if ((c >= 65 && c <= 90 ? c + 32 : c) !== word.charCodeAt(i)) return false;
    }
    return true;
  }

  /** The last word as a coordinate. @throws FormatError `wrong` where it is no number, `mesh-number` where it has no use. */
  coordinate(wrong: FormatErrorCode): number {
    const value = numberAt(this.bytes, this.start, this.end);
    // NaN and what is too large fail here; the rest is in order and needs no words.
    if (Math.abs(value) < 1e38) return value;
    checkCoordinate(value, () => ({ where: this.where(), word: this.word(), wrong }));
    return value;
  }

  where(): string {
    return `Line ${this.line}`;
  }

  /** The last word, fit to be shown: short, and without what cannot be printed. */
  word(): string {
    return showBytes(this.bytes.subarray(this.start, this.end));
  }

  fail(code: FormatErrorCode, message: string, remedy: string): never {
    throw new FormatError(code, `${this.where()}: ${message}`, remedy);
  }

  #take(at: number): boolean {
    const { bytes } = this;
    this.start = at;
    while (at < bytes.length && !isBlank(bytes[at]!)) at++;
    this.end = at;
    return this.end > this.start;
  }

  #endsLine(at: number): boolean {
    return this.bytes[at] === lineFeed || this.bytes[at] === carriageReturn;
  }

  /** The place after the blank at `at`, or after the line's end there, which is counted. */
  #step(at: number): number {
    const c = this.bytes[at];
    if (c === lineFeed || c === carriageReturn) {
      this.line++;
      if (c === carriageReturn && this.bytes[at + 1] === lineFeed) return at + 2;
    }
    return at + 1;
  }
}

const longestShown = 24;

/** Bytes of a file as part of a sentence. */
export function showBytes(bytes: Uint8Array): string {
  const text = [...bytes.subarray(0, longestShown)]
    .map((c) => (c > space && c < 127 ? String.fromCharCode(c) : '\ufffd'))
    .join('');
  return bytes.length > longestShown ? `${text}…` : text;
}
