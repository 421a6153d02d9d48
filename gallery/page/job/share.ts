/** Links that hold a whole job in their fragment, which browsers do not send to any server. */
import { deflateSync, Inflate, strFromU8, strToU8 } from 'fflate';

/** Longest job that a link may unfold to, bytes: a link of a few letters could otherwise fill the memory. */
export const longestJob = 256 * 1024;
/** Links longer than this are cut by mail programs and some browsers. */
export const longestLink = 16_000;

const prefix = 'job=';

/** `#job=…`: the text deflated (RFC 1951), in base64url (RFC 4648). */
export const linkFragment = (text: string): string =>
  `#${prefix}${toBase64Url(deflateSync(strToU8(text), { level: 9 }))}`;

export type LinkReading =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly message: string; readonly remedy: string };

const broken = {
  ok: false,
  message: 'The link is cut short or was changed on its way.',
  remedy: 'Ask for it again, or for the job as a file.',
} as const;

/** The job in a fragment; undefined where it holds none. Never throws. */
export function readLink(fragment: string): LinkReading | undefined {
  const content = /^#job=(.*)$/s.exec(fragment)?.[1];
  if (content === undefined) return undefined;
  if (!/^[A-Za-z0-9_-]*$/.test(content)) return broken;
  try {
    const unfolded = inflateWithin(fromBase64Url(content), longestJob);
    if (unfolded === undefined)
      return {
        ok: false,
        message: `The link holds a job of more than ${longestJob / 1024} kB.`,
        remedy: 'Ask for the job as a file.',
      };
    return unfolded.length === 0 ? broken : { ok: true, text: strFromU8(unfolded) };
  } catch {
    return broken;
  }
}

/** Undefined when it would be longer than `most`. */
function inflateWithin(bytes: Uint8Array, most: number): Uint8Array | undefined {
  const chunks: Uint8Array[] = [];
  let length = 0;
  let ended = false;
  const inflate = new Inflate((chunk, final) => {
    length += chunk.length;
    ended ||= final;
    if (length <= most) chunks.push(chunk);
  });
  // In small pieces, so that what is too long is found before all of it is unfolded.
  const step = 64;
  for (let at = 0; at < bytes.length && length <= most; at += step)
    inflate.push(bytes.subarray(at, at + step), at + step >= bytes.length);
  if (length > most) return undefined;
  if (!ended) throw new Error('cut short');
  const all = new Uint8Array(length);
  let at = 0;
  for (const chunk of chunks) {
    all.set(chunk, at);
    at += chunk.length;
  }
  return all;
}

const toBase64Url = (bytes: Uint8Array): string => {
  let text = '';
  for (const byte of bytes) text += String.fromCharCode(byte);
  return btoa(text).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
};

const fromBase64Url = (text: string): Uint8Array =>
  Uint8Array.from(atob(text.replaceAll('-', '+').replaceAll('_', '/')), (c) => c.charCodeAt(0));
