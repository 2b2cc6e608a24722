export { cutBand, multiplyPhasors, turnFrames } from "./band";
export { addEquations, innerProduct, neighbourColumn, restEnergy, takeOut } from "./columns";
export { decimate } from "./decimation";
export { decode16, decode24 } from "./decoding";
export { inverse, transform, transformReal } from "./fourier";
export { smooth } from "./smoothing";
export { firstOutside, productSum, summarise } from "./survey";
export { whitenedProducts } from "./whitening";
export { addPower, addPowers, correlate, firstHighPeak } from "./tracker";
