/** Nodes and weights of a rule for integrals from `from` to `to`. */
export interface QuadratureRule {
  readonly nodes: Float64Array;
  readonly weights: Float64Array;
}

/**
 * The Gauss-Legendre rule: the sum of weights times values at the nodes is exact for polynomials up to degree 2 count - 1.
 *
 * Nodes are the zeros of the Legendre polynomial, by Newton's method from the usual cosine start (Abramowitz & Stegun 25.4.30).
 *
 * @param count - how many nodes, 1 or more
 */
export function gaussLegendre(count: number, from: number, to: number): QuadratureRule {
  const nodes = new Float64Array(count);
  const weights = new Float64Array(count);
  const middle = (from + to) / 2;
  const half = (to - from) / 2;
  for (let i = 0; i < count; i++) {
    let x = Math.cos((Math.PI * (i + 0.75)) / (count + 0.5));
    let slope = 1;
    for (let step = 0; step < 100; step++) {
      let previous = 1;
      let value = x;
      for (let degree = 2; degree <= count; degree++)
        [previous, value] = [value, ((2 * degree - 1) * x * value - (degree - 1) * previous) / degree];
      slope = (count * (previous - x * value)) / (1 - x * x);
      const move = value / slope;
      x -= move;
      if (Math.abs(move) < 1e-15) break;
    }
    nodes[i] = middle - half * x;
    weights[i] = (2 * half) / ((1 - x * x) * slope * slope);
  }
  return { nodes, weights };
}
