export { defaultView, type View } from './camera.js';
export { gatingColour, metalColour, type PreviewColour, plasticColour } from './colour.js';
export {
  type ColourGroup,
  type Pixels,
  type PreviewOptions,
  renderPixels,
  renderPreview,
} from './preview.js';
