/**
 * A short fingerprint of inputs, to tell whether two reports were made from the same ones; not for security.
 * Source: FNV-1a with 64 bits, Fowler, Noll and Vo (from memory), in two halves of 32 bits.
 * @returns 16 hexadecimal digits
 */
export function hashText(data: string | Uint8Array): string {
  const bytes = typeof data === 'string' ? new TextEncoder().encode(data) : data;
  let low = 0x84222325;
  let high = 0xcbf29ce4;
  for (let i = 0; i < bytes.length; i++) {
    low ^= bytes[i];
    // times 2^40 + 0x1b3, in 16-bit limbs
    const l0 = (low & 0xffff) * 0x1b3;
    const l1 = (low >>> 16) * 0x1b3 + (l0 >>> 16);
    const carry = Math.floor(l1 / 0x10000);
    high = (Math.imul(high, 0x1b3) + Math.imul(low, 0x100) + carry) >>> 0;
    low = (((l1 & 0xffff) << 16) | (l0 & 0xffff)) >>> 0;
  }
  return high.toString(16).padStart(8, '0') + low.toString(16).padStart(8, '0');
}
