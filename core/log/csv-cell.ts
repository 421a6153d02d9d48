/** Cells that spreadsheets would run as formulas. */

/**
 * A spreadsheet takes a cell that starts so for a formula (OWASP, "CSV Injection"): the signs, their full-width
 * forms, tab and line breaks.
 */
const formula = /^'*[=+\-@\t\r\n＝＋－＠]/u;
const guarded = /^''*[=+\-@\t\r\n＝＋－＠]/u;

/** Text that a spreadsheet shows as it stands: an apostrophe goes before what it would run. */
export const guardCell = (text: string): string => (formula.test(text) ? `'${text}` : text);

/** The text that was guarded; other text as it is. */
export const unguardCell = (text: string): string => (guarded.test(text) ? text.slice(1) : text);
