/** The surface classes that finishing stock is given by. */
export const surfaceClasses = ['flank', 'tip', 'face', 'bore', 'skin', 'mating'] as const;

export type SurfaceClass = (typeof surfaceClasses)[number];

/** Finishing stock: a true normal offset of the surface, mm per side, by surface class. */
export type Stock = Readonly<Record<SurfaceClass, number>>;

/** The finished part itself. */
export const noStock: Stock = { flank: 0, tip: 0, face: 0, bore: 0, skin: 0, mating: 0 };

export const isNoStock = (stock: Stock): boolean => surfaceClasses.every((c) => stock[c] === 0);
