/**
 * Where things lie in a field's memory, bytes: one list for the kernel (`assembly/`) and for what calls it. Words are
 * 32 bits: whole numbers, addresses, or floats as said.
 */

/** Next unit of work to take, the end of what may be taken, units done: counted on and on, never set back. */
export const atNext = 0;
export const atLimit = 64;
export const atDone = 128;
/** Not 0: hands are to leave. */
export const atStop = 192;

/** The sweep at work: its first unit, axis, whether temperatures are to be written, s (float). */
export const atFirst = 256;
export const atAxis = 260;
export const atLast = 264;
export const atSeconds = 268;

/** Cells along x, y and z; axes whose ends are shut, a bit each. */
export const atCounts = 272;
export const atShut = 284;

/** Addresses of the cells' lengths by axis: pairs of float, mm and 1/mm. */
export const atLengths = 288;
/** Addresses of what is kept by cell, all float; of J lost by unit (double); of each hand's scratch and its bytes. */
export const atShares = 300;
/** By axis: mm²·K/W at the face above each cell. */
export const atFaces = 304;
export const atContent = 316;
export const atTemperature = 320;
export const atLost = 324;
export const atScratch = 328;
export const atScratchBytes = 332;

/** Float: °C of the solidus; liquidus over it; J/(mm³·K) of metal by phase and of mould. */
export const atSolidus = 384;
export const atRange = 388;
export const atBelow = 392;
export const atWithin = 396;
export const atAbove = 400;
export const atMouldHeat = 404;
/** Float: W/(mm·K) of mould, of solid metal, and how much more of liquid. */
export const atMouldConductivity = 408;
export const atSolidConductivity = 412;
export const atMoreConductivity = 428;
/** Float: the surroundings, K over the solidus; W/(mm²·K) of moving air; W/(mm²·K⁴) of radiation. */
export const atOutside = 416;
export const atConvection = 420;
export const atRadiation = 424;

/** Float: how much more bare metal radiates. */
export const atMoreRadiation = 444;

/** Float, by axis: true area over that of cells' faces to the surroundings. */
export const atExposed = 432;

/** Where the arrays may begin. */
export const headBytes = 512;

/** Scratch for four cells side by side on their lines. */
export const recordBytes = 160;

/** Share of a cell that is not there. */
export const absent = -1;
