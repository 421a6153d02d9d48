import { FormatError } from '../format-error.js';

/**
 * A file without its byte order mark, and UTF-16 brought to a byte a character: the formats' own words are all ASCII,
 * and a name that is not becomes question marks. UTF-16 without a mark is known by every second byte being 0.
 *
 * @throws FormatError for UTF-32.
 */
export function plainText(bytes: Uint8Array): Uint8Array {
  const [a, b, c, d] = bytes;
  if (a === 0xef && b === 0xbb && c === 0xbf) return bytes.subarray(3);
  if ((a === 0xff && b === 0xfe && c === 0 && d === 0) || (a === 0 && b === 0 && c === 0xfe && d === 0xff)) {
    throw new FormatError('file-kind', 'The file is a text in UTF-32.', 'Save it as UTF-8.');
  }
  if (a === 0xff && b === 0xfe) return narrow(bytes.subarray(2), 0);
  if (a === 0xfe && b === 0xff) return narrow(bytes.subarray(2), 1);
  if (isWide(bytes, 0)) return narrow(bytes, 0);
  if (isWide(bytes, 1)) return narrow(bytes, 1);
  return bytes;
}

/** @param low which of two bytes has the letter: 0 or 1 */
function isWide(bytes: Uint8Array, low: 0 | 1): boolean {
  const most = Math.min(bytes.length, 64) & ~1;
  if (most < 8) return false;
  for (let i = 0; i < most; i += 2) {
    const letter = bytes[i + low]!;
    if (bytes[i + 1 - low] !== 0 || !(letter >= 9 && letter < 127)) return false;
  }
  return true;
}

function narrow(bytes: Uint8Array, low: 0 | 1): Uint8Array {
  const text = new Uint8Array(Math.ceil(bytes.length / 2));
  for (let i = 0; i < text.length; i++) {
    const letter = bytes[2 * i + low] ?? 0;
    text[i] = bytes[2 * i + 1 - low] === 0 && letter < 128 ? letter : 63;
  }
  return text;
}
