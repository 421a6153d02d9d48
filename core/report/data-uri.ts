const chunk = 0x2000;

/** Bytes as a `data:` URI, so that a document needs no second file. */
export function dataUri(type: 'image/png' | 'image/svg+xml', bytes: Uint8Array): string {
  let binary = '';
  for (let i = 0; i < bytes.length; i += chunk)
    binary += String.fromCharCode(...bytes.subarray(i, i + chunk));
  return `data:${type};base64,${btoa(binary)}`;
}

/** An SVG drawing as a picture: it keeps its own styles to itself and cannot run anything. */
export const svgUri = (svg: string): string => dataUri('image/svg+xml', new TextEncoder().encode(svg));
