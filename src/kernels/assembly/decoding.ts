// Decoding of little-endian whole numbers (`wav/sampleDecoder`): `count` samples, `stride` bytes apart, to 32-bit floats.

export function decode16(from: usize, stride: usize, to: usize, count: i32): void {
  for (const end = to + (<usize>count << 2); to < end; to += 4, from += stride) {
    store<f32>(to, <f32>load<i16>(from) * <f32>(1.0 / 0x8000));
  }
}

export function decode24(from: usize, stride: usize, to: usize, count: i32): void {
  for (const end = to + (<usize>count << 2); to < end; to += 4, from += stride) {
    const value = (<i32>load<i16>(from, 1) << 8) | <i32>load<u8>(from);
    store<f32>(to, <f32>value * <f32>(1.0 / 0x800000));
  }
}
