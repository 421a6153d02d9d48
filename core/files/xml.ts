const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&apos;',
};

/** Text made safe for XML content and attributes; characters that XML 1.0 (section 2.2) forbids become U+FFFD. */
export const escapeXml = (text: string): string =>
  text
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters XML forbids
    .replace(/[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]|\p{Surrogate}/gu, '\ufffd')
    .replace(/[&<>"']/g, (c) => entities[c]!);
