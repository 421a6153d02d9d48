/** Where the reader is, by the fragment of the address: nothing in it ever goes to a server. */
import { type LinkReading, readLink } from './job/share.js';

export type Route =
  | { readonly place: 'wall' }
  | { readonly place: 'bench' }
  /** A link that brings a job along. */
  | { readonly place: 'link'; readonly link: LinkReading };

export const benchFragment = '#bench';

export function routeOf(fragment: string): Route {
  const link = readLink(fragment);
  if (link) return { place: 'link', link };
  return fragment === benchFragment ? { place: 'bench' } : { place: 'wall' };
}
