/** A text with numbers as a job has them, `30mm` or `60deg`, as a sentence has them: `30 mm`, `60°`. */
export const writtenOut = (text: string): string =>
  text.replace(/(\d)(mm|s)\b/g, '$1 $2').replace(/(\d)deg\b/g, '$1°');
