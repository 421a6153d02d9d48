import { SaxesParser, type SaxesTagNS } from 'saxes';
import { FormatError } from '../../format-error.js';
import type { MeshLimits } from '../limits.js';
import { shortName } from '../package/words.js';

export interface XmlElement {
  /** without its prefix */
  readonly name: string;
  readonly namespace: string;
  /** An attribute without a prefix; undefined where there is none. */
  attribute(name: string): string | undefined;
  /** An attribute of a namespace. */
  attributeOf(namespace: string, name: string): string | undefined;
  /** What a prefix stands for here. */
  namespaceOf(prefix: string): string | undefined;
}
export interface XmlHandler {
  open(element: XmlElement, line: () => number): void;
  close(name: string, namespace: string): void;
}

/** Characters without a tag among them: a comment or a value so long is an attack on memory. */
const longestPiece = 4 * 2 ** 20;

/**
 * Reads XML that comes in pieces, UTF-8 or UTF-16 (XML 1.0, 4.3.3). A DOCTYPE is refused, so that no entity can be
 * declared, and nothing is fetched.
 *
 * @param part its name, for the errors
 * @throws FormatError `three-mf-xml`, `three-mf-doctype` with the line.
 */
export class XmlReader {
  readonly #parser: SaxesParser<{ xmlns: true }>;
  readonly #limits: MeshLimits;
  readonly #part: string;
  #decoder: TextDecoder | null = null;
  /** The first bytes, until there are enough to tell their encoding. */
  #first = new Uint8Array();
  #depth = 0;
  #sinceTag = 0;

  constructor(part: string, limits: MeshLimits, handler: XmlHandler) {
    this.#part = part;
    this.#limits = limits;
    const parser = new SaxesParser({ xmlns: true, position: true });
    this.#parser = parser;
    const line = (): number => parser.line;
    parser.on('doctype', () =>
      this.#refuse('three-mf-doctype', 'has a DOCTYPE, which a model must not have'),
    );
    parser.on('error', () => this.#refuse('three-mf-xml', 'is not well-formed XML'));
    parser.on('opentag', (tag) => {
      this.#sinceTag = 0;
      if (++this.#depth > this.#limits.depth)
        this.#refuse('three-mf-xml', `has elements within elements more than ${this.#limits.depth} deep`);
      handler.open(elementOf(tag, parser), line);
    });
    parser.on('closetag', (tag) => {
      this.#sinceTag = 0;
      this.#depth--;
      handler.close(tag.local, tag.uri);
    });
  }

  write(piece: Uint8Array): void {
    if (this.#decoder) {
      this.#parse(this.#decoder.decode(piece, { stream: true }));
      return;
    }
    const first = new Uint8Array(this.#first.length + piece.length);
    first.set(this.#first);
    first.set(piece, this.#first.length);
    this.#first = first;
    if (first.length >= 4) this.#begin();
  }

  end(): void {
    if (!this.#decoder) this.#begin();
    this.#parse(this.#decoder!.decode());
    this.#parser.close();
  }

  #begin(): void {
    const [a, b] = this.#first;
    const encoding =
      (a === 0xff && b === 0xfe) || (a === 0x3c && b === 0)
        ? 'utf-16le'
        : (a === 0xfe && b === 0xff) || (a === 0 && b === 0x3c)
          ? 'utf-16be'
          : 'utf-8';
    this.#decoder = new TextDecoder(encoding);
    this.#parse(this.#decoder.decode(this.#first, { stream: true }));
  }

  #parse(text: string): void {
    // In pieces, so that what has no tag is noticed before it has grown.
    for (let at = 0; at < text.length; at += 65536) {
      const piece = text.slice(at, at + 65536);
      this.#sinceTag += piece.length;
      if (this.#sinceTag > longestPiece) {
        this.#refuse('three-mf-xml', `has more than ${longestPiece} characters without a tag among them`);
      }
      this.#parser.write(piece);
    }
  }

  #refuse(code: 'three-mf-xml' | 'three-mf-doctype', what: string): never {
    throw new FormatError(
      code,
      `"${shortName(this.#part)}" in the package, line ${this.#parser.line}: it ${what}.`,
      'Export it again; a model is plain XML of the 3MF Core Specification.',
    );
  }
}

const elementOf = (tag: SaxesTagNS, parser: SaxesParser<{ xmlns: true }>): XmlElement => ({
  name: tag.local,
  namespace: tag.uri,
  attribute: (name) => {
    const found = tag.attributes[name];
    return found?.prefix === '' ? found.value : undefined;
  },
  attributeOf: (namespace, name) =>
    Object.values(tag.attributes).find((a) => a.uri === namespace && a.local === name)?.value,
  namespaceOf: (prefix) => parser.resolve(prefix),
});
