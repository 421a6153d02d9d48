/** From a file's bytes to text fit for the YAML reader. */
import { showValue } from '../part/input-problem.js';

/** Largest job file, bytes; ten thousand parts take about two million. */
export const largestJob = 4 * 1024 * 1024;

export type SourceText =
  | { readonly ok: true; readonly text: string }
  | {
      readonly ok: false;
      readonly code: 'too-large' | 'not-text';
      readonly line: number;
      readonly column: number;
      readonly message: string;
      readonly remedy: string;
    };

const asText = 'save the job as plain UTF-8 text';

/**
 * Decodes UTF-8 with or without a byte order mark. Refused: more than 4 MB, UTF-16, bytes that are not UTF-8,
 * NUL and other control characters, lone surrogates, and what is neither text nor bytes.
 */
export function decodeSource(source: string | Uint8Array): SourceText {
  // A caller without types may give anything.
  if (typeof source !== 'string' && !((source as unknown) instanceof Uint8Array))
    return refuse(
      'not-text',
      '',
      0,
      `the job is ${showValue(source)}, not text`,
      'give the YAML text itself',
    );
  const size = source.length;
  if (size > largestJob) {
    const megabytes = (size / 1024 / 1024).toFixed(1);
    return refuse('too-large', '', 0, `the file is ${megabytes} MB`, 'a plate job is at most 4 MB');
  }
  const text = typeof source === 'string' ? source : decodeBytes(source);
  if (typeof text !== 'string') return text;
  return checkCharacters(text.startsWith('\ufeff') ? text.slice(1) : text);
}

function decodeBytes(bytes: Uint8Array): string | SourceText {
  const [first, second] = bytes;
  if ((first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff)) {
    return refuse('not-text', '', 0, 'the file is UTF-16', asText);
  }
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    const loose = new TextDecoder('utf-8').decode(bytes);
    const at = loose.indexOf('\ufffd');
    const message = loose.includes('\0') ? 'the file is binary, not text' : 'the file is not UTF-8';
    return refuse('not-text', loose, Math.max(0, at), message, asText);
  }
}

function checkCharacters(text: string): SourceText {
  const nul = text.indexOf('\0');
  if (nul >= 0) return refuse('not-text', text, nul, 'has a NUL: the file is binary or UTF-16', asText);
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
  const control = /[\u0001-\u0008\u000b\u000c\u000e-\u001f\u007f]/.exec(text);
  if (control !== null) {
    const code = control[0].charCodeAt(0).toString(16).padStart(4, '0');
    return refuse(
      'not-text',
      text,
      control.index,
      `has the control character U+${code.toUpperCase()}`,
      'take it out',
    );
  }
  const lone = /[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/.exec(text);
  if (lone !== null)
    return refuse('not-text', text, lone.index, 'has half a character (a lone surrogate)', asText);
  return { ok: true, text };
}

function refuse(
  code: 'too-large' | 'not-text',
  text: string,
  at: number,
  message: string,
  remedy: string,
): SourceText {
  const before = text.slice(0, at);
  const line = before.split('\n').length;
  return { ok: false, code, line, column: at - before.lastIndexOf('\n'), message, remedy };
}
