export { alloyColour } from './alloy-colour.js';
export { defaultView, type View } from './camera.js';
export { gatingColour, metalColour, type PreviewColour, plasticColour } from './colour.js';
export {
  type ColourGroup,
  type PreviewOptions,
  renderPixels,
  renderPreview,
  renderScene,
  type Scene,
} from './preview.js';
export type { Pixels, SurfaceTint } from './resolve.js';
