/** A seeded stream of random numbers. The same name always gives the same stream. */
export interface RandomStream {
  /** Uniform in [0, 1). */
  uniform(): number
  /** Standard normal deviate. */
  normal(): number
}

const siteSeed = 20_270_201

/** Opens the stream of that name; streams of different names do not disturb each other. */
export function openRandomStream(name: string): RandomStream {
  let state = (hashOf(name) ^ siteSeed) | 0
  let spare = Number.NaN
  const uniform = () => {
    // mulberry32 (public domain, from memory): 32 bits of state, period 2^32.
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296
  }
  const normal = () => {
    if (!Number.isNaN(spare)) {
      const kept = spare
      spare = Number.NaN
      return kept
    }
    const radius = Math.sqrt(-2 * Math.log(1 - uniform()))
    const angle = 2 * Math.PI * uniform()
    spare = radius * Math.sin(angle)
    return radius * Math.cos(angle)
  }
  return { uniform, normal }
}

/** FNV-1a, 32 bits. */
function hashOf(text: string): number {
  let hash = 0x811c9dc5
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193)
  return hash
}
