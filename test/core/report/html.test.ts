import fc from 'fast-check';
import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { describe, expect, test } from 'vitest';
import { cssString, escapeHtml, html, raw } from '../../../core/report/html.js';

describe('html', () => {
  test('escapes values and leaves markup of its own alone', () => {
    const value = `<b a="1" c='2'>&`;
    expect(html`<p title="${value}">${value}${html`<i>${1}</i>`}</p>`.text).toBe(
      '<p title="&lt;b a=&quot;1&quot; c=&#39;2&#39;&gt;&amp;">&lt;b a=&quot;1&quot; c=&#39;2&#39;&gt;&amp;<i>1</i></p>',
    );
  });

  test('joins lists; empty values vanish, zero does not', () => {
    expect(html`${['a', null, undefined, false, ['b', 0]]}`.text).toBe('ab0');
    expect(html`x`.text).toBe('x');
    expect(raw('<br/>').toString()).toBe('<br/>');
  });

  test('characters that HTML and XML forbid become U+FFFD', () => {
    expect(escapeHtml('a\u0000b\u001b[31m\uD800c\uFFFEd\te')).toBe('a\uFFFDb\uFFFD[31m\uFFFDc\uFFFDd\te');
    expect(escapeHtml('𝔐 ε_α √')).toBe('𝔐 ε_α √');
  });

  test('any text at all survives the trip through an XML reader, seed 7', () => {
    const reader = new XMLParser({
      ignoreAttributes: false,
      attributeNamePrefix: '@',
      trimValues: false,
      parseTagValue: false,
      parseAttributeValue: false,
      htmlEntities: true,
    });
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 40 }), (text) => {
        const made = html`<r t="${text}"><v>x${text}x</v></r>`.text;
        expect(XMLValidator.validate(made)).toBe(true);
        const { r } = reader.parse(made) as { r: { v: string } };
        // biome-ignore lint/suspicious/noControlCharactersInRegex: exactly these are the ones XML leaves out
        const forbidden = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\ufdd0-\ufdef\ufffe\uffff]/gu;
        const wanted = text.replace(forbidden, '\uFFFD').replace(/\r\n?/g, '\n');
        const plain = [...wanted].map((c) => (c.codePointAt(0)! > 0x10fffd ? '\uFFFD' : c)).join('');
        expect(r.v.replace(/\r\n?/g, '\n')).toBe(`x${plain}x`);
      }),
      { seed: 7, numRuns: 200 },
    );
  });
});

describe('cssString', () => {
  test('nothing in it can end the string, the rule or the style element', () => {
    const text = cssString(`a"b\\c</style><script>}\n*/é`);
    expect(text).toMatch(/^"[A-Za-z0-9 \\]*"$/);
    expect(text).toContain('a\\22 b\\5c c\\3c \\2f style');
  });
});
