import {
  LineBasicMaterial,
  type Material,
  MeshBasicMaterial,
  MeshStandardMaterial,
  type Plane,
  ShaderMaterial,
} from 'three';
import type { Body } from './content.js';
import { type FieldPaint, fieldLookup } from './field-paint.js';
import { colourOf, finishes, type Look, mirrorColour, stockTint } from './look.js';

/** Drawn in this order; bodies that hide what is behind them come first of all, at 0. */
export const order = { bed: -2, shadow: -1, caps: 1, creases: 5000, skinDepth: 5001, skin: 5002, ink: 5003 };

/** Surfaces stand back a little behind the lines on them; a skin does so behind what it merely touches. */
const standBack = { polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 };

export interface SurfaceMaterials {
  readonly surface: Material;
  /** Of a skin: keeps what is seen through it to its nearest side. */
  readonly depth: Material | null;
  readonly creases: LineBasicMaterial | null;
}

export function makeSurface(
  body: Body,
  look: Look,
  paint: FieldPaint | null,
  planes: Plane[],
): SurfaceMaterials {
  if (body.skin) {
    return { surface: skin(body, planes), depth: skinDepth(planes), creases: null };
  }
  const creases = new LineBasicMaterial({
    color: '#14110d',
    transparent: true,
    opacity: look.creases * (body.painted && paint ? 0.6 : 1),
    clippingPlanes: planes,
  });
  if (body.painted && paint) return { surface: painted(paint, planes), depth: null, creases };
  const { metalness, roughness, light } = finishes[body.finish];
  const surface = new MeshStandardMaterial({
    color: body.finish === 'metal' ? mirrorColour(body.colour) : colourOf(body.colour).multiplyScalar(light),
    metalness,
    roughness,
    clippingPlanes: planes,
    ...standBack,
  });
  return { surface, depth: null, creases };
}

/**
 * Where there is no stock, skin and part are one surface in two sets of triangles, a chord's height apart: the skin
 * stands back by as much, square to the surface, so that the part is what is seen there. mm
 */
const skinBack = 0.025;

const standSkinBack = /* glsl */ `
  #include <project_vertex>
  float skinSlope = max(0.1, abs(normalize(normalMatrix * normal).z));
  vec4 skinPlace = projectionMatrix * (mvPosition - vec4(0.0, 0.0, SKIN_BACK / skinSlope, 0.0));
  gl_Position.z = skinPlace.z * gl_Position.w / skinPlace.w;`;

function skinDepth(planes: Plane[]): Material {
  const material = new MeshBasicMaterial({
    colorWrite: false,
    transparent: true,
    clippingPlanes: planes,
    ...standBack,
    polygonOffsetUnits: 16,
  });
  material.onBeforeCompile = (shader) => {
    shader.vertexShader = standBackIn(shader.vertexShader);
  };
  material.customProgramCacheKey = () => 'stock-depth';
  return material;
}

const standBackIn = (vertexShader: string): string =>
  vertexShader.replace('#include <project_vertex>', standSkinBack.replace('SKIN_BACK', skinBack.toFixed(3)));

/** Stock: warm, thin where it is looked at squarely, denser at its rim. */
function skin(body: Body, planes: Plane[]): Material {
  const material = new MeshStandardMaterial({
    color: stockTint(body.colour).multiplyScalar(0.6),
    metalness: 0,
    roughness: 0.55,
    transparent: true,
    opacity: 0.36,
    depthWrite: false,
    clippingPlanes: planes,
    ...standBack,
  });
  material.onBeforeCompile = (shader) => {
    shader.vertexShader = standBackIn(shader.vertexShader);
    shader.fragmentShader = shader.fragmentShader.replace(
      '#include <opaque_fragment>',
      `float rim = 1.0 - abs(dot(normalize(vViewPosition), normal));
       diffuseColor.a = clamp(diffuseColor.a * (0.75 + 1.5 * rim * rim), 0.0, 1.0);
       #include <opaque_fragment>`,
    );
  };
  material.customProgramCacheKey = () => 'stock-skin';
  return material;
}

/** Lit almost alike from all sides, and without tone mapping, so that colours are those of the legend. */
function painted(paint: FieldPaint, planes: Plane[]): Material {
  return new ShaderMaterial({
    uniforms: paint.uniforms,
    vertexShader: /* glsl */ `
      #include <clipping_planes_pars_vertex>
      varying vec3 vAt;
      varying vec3 vNormal;
      void main() {
        vAt = position;
        vNormal = normalMatrix * normal;
        #include <begin_vertex>
        #include <project_vertex>
        #include <clipping_planes_vertex>
      }`,
    fragmentShader: /* glsl */ `
      #include <clipping_planes_pars_fragment>
      ${fieldLookup}
      varying vec3 vAt;
      varying vec3 vNormal;
      void main() {
        #include <clipping_planes_fragment>
        vec3 n = normalize(vNormal);
        float lamp = max(0.0, (dot(n, vec3(-0.5, 0.655, 0.566)) + 0.25) / 1.25);
        float light = 0.66 + 0.34 * (0.22 + 0.18 * (n.y + 1.0) + 0.5 * lamp);
        gl_FragColor = vec4(fieldAt(vAt) * light, 1.0);
        #include <colorspace_fragment>
      }`,
    clipping: true,
    clippingPlanes: planes,
    ...standBack,
  });
}
