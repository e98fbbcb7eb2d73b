import { assert } from '#domain/assert.ts'
import type { ReadingBlock } from './store.ts'

/**
 * First and last instant by channel, in microseconds. A commit needs them to know, without looking at a single
 * stored reading, that a batch only adds at the ends: the rule for files as loggers write them.
 * Instants are held as doubles, exact between the years 1685 and 2255.
 */
export class ChannelSpans {
  first = new Float64Array(0)
  last = new Float64Array(0)
  count = 0
  /** False once a reading did not come after all earlier ones of its channel: only then can a key be twice. */
  increasing = true
  /** How often a reading came before the previous one, of whatever channel. */
  stepsBack = 0
  firstMicros = Number.POSITIVE_INFINITY
  lastMicros = Number.NEGATIVE_INFINITY

  /** Takes in the readings of a block; channels run from 1 to `highestChannel`. */
  add(block: ReadingBlock, highestChannel: number): void {
    this.#reach(highestChannel)
    const { channel, count } = block
    const { first, last } = this
    const halves = new Uint32Array(block.atMicros.buffer, block.atMicros.byteOffset, count * 2)
    let previous = this.count === 0 ? Number.NEGATIVE_INFINITY : this.#previous
    for (let i = 0; i < count; i++) {
      const number = channel[i] as number
      assert(number >= 1 && number <= highestChannel, `channel ${number} was never given a number`)
      // Converting through BigInt would cost more than all the rest of this loop.
      const atMicros = ((halves[2 * i + 1] as number) | 0) * 4294967296 + (halves[2 * i] as number)
      if (atMicros < previous) this.stepsBack++
      previous = atMicros
      if (atMicros <= (last[number] as number)) this.increasing = false
      else last[number] = atMicros
      if (atMicros < (first[number] as number)) first[number] = atMicros
      if (atMicros < this.firstMicros) this.firstMicros = atMicros
      if (atMicros > this.lastMicros) this.lastMicros = atMicros
    }
    this.#previous = previous
    this.count += count
    assert(
      count === 0 || (Math.abs(this.firstMicros) < 2 ** 53 && Math.abs(this.lastMicros) < 2 ** 53),
      `instants from ${this.firstMicros} to ${this.lastMicros} microseconds are out of range`,
    )
  }

  /** Takes in another set of spans. */
  merge(other: ChannelSpans): void {
    this.#reach(other.first.length - 1)
    for (let number = 1; number < other.first.length; number++)
      this.widen(number, other.first[number] as number, other.last[number] as number)
  }

  widen(number: number, firstMicros: number, lastMicros: number): void {
    this.#reach(number)
    this.first[number] = Math.min(this.first[number] as number, firstMicros)
    this.last[number] = Math.max(this.last[number] as number, lastMicros)
  }

  /** Whether any channel's readings lie within, or touch, the other's of the same channel. */
  overlaps(other: ChannelSpans): boolean {
    const shared = Math.min(this.first.length, other.first.length)
    for (let number = 1; number < shared; number++)
      if (
        (this.first[number] as number) <= (other.last[number] as number) &&
        (other.first[number] as number) <= (this.last[number] as number)
      )
        return true
    return false
  }

  #previous = Number.NEGATIVE_INFINITY

  #reach(highestChannel: number): void {
    if (highestChannel < this.first.length) return
    const first = new Float64Array(highestChannel + 1).fill(Number.POSITIVE_INFINITY)
    const last = new Float64Array(highestChannel + 1).fill(Number.NEGATIVE_INFINITY)
    first.set(this.first)
    last.set(this.last)
    this.first = first
    this.last = last
  }
}
