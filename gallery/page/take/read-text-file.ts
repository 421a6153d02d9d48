import { showText } from '../../../core/part/input-problem.js';

/** Longer files are none of ours: a shop's log of thirty thousand pours, bytes. */
const longestFile = 16 * 1024 * 1024;

export type TextReading =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly message: string };

/** A file's text, or a sentence of why it cannot be had. */
export async function readTextFile(file: File): Promise<TextReading> {
  const name = showText(file.name);
  if (file.size > longestFile)
    return { ok: false, message: `${name} is larger than ${longestFile / 2 ** 20} MB: it is not opened.` };
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(await file.arrayBuffer());
    return { ok: true, text: text.replace(/^\uFEFF/, '') };
  } catch {
    return { ok: false, message: `${name} is no text in UTF-8: open a plate job as it was saved.` };
  }
}
