/**
 * Amplitude of each of the 256 codes; +-1 is 2^15 of the 16-bit values that the codes stand for. Adding 0 makes the
 * negative zero of mu-law a plain one.
 */
function table(decode: (code: number) => number): Float32Array {
  return Float32Array.from({ length: 256 }, (_, code) => decode(code) / 32_768 + 0);
}

/**
 * A-law of ITU-T G.711 (table 1): even bits inverted, sign bit set for positive values, eight segments of sixteen
 * equal steps, each value in the middle of its step. The 13-bit values stand at the top of 16 bits.
 */
export const A_LAW_TABLE: Float32Array = table((code) => {
  const bits = code ^ 0x55;
  const segment = (bits >> 4) & 7;
  const step = (bits & 15) * 2 + 1;
  const magnitude = segment === 0 ? step : (step + 32) << (segment - 1);
  return 8 * (bits & 0x80 ? magnitude : -magnitude);
});

/**
 * Mu-law of ITU-T G.711 (table 2): all bits inverted, sign bit set for negative values after that, eight segments
 * shifted by 33. The 14-bit values stand at the top of 16 bits.
 */
export const MU_LAW_TABLE: Float32Array = table((code) => {
  const bits = ~code & 0xff;
  const magnitude = (((bits & 15) * 2 + 33) << ((bits >> 4) & 7)) - 33;
  return 4 * (bits & 0x80 ? -magnitude : magnitude);
});
