const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/** Bytes as base64 (RFC 4648, section 4). Neither Node's Buffer nor a browser's btoa is to be had in both. */
export function base64(bytes: Uint8Array): string {
  const parts: string[] = [];
  for (let i = 0; i < bytes.length; i += 3) {
    const three = (bytes[i]! << 16) | ((bytes[i + 1] ?? 0) << 8) | (bytes[i + 2] ?? 0);
    const left = bytes.length - i;
    parts.push(
      letters[three >> 18]! +
        letters[(three >> 12) & 63]! +
        (left > 1 ? letters[(three >> 6) & 63]! : "=") +
        (left > 2 ? letters[three & 63]! : "="),
    );
  }
  return parts.join("");
}
