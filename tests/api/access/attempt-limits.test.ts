import { describe, expect, it } from 'vitest'
import { createAttemptLimits } from '../../../api/access/attempt-limits.ts'

const minuteMs = 60_000

function limits() {
  let at = 0
  const limits = createAttemptLimits(() => at)
  return { ...limits, pass: (ms: number) => (at += ms) }
}

describe('attempts to sign in', () => {
  it('cost nothing five times, then each one twice as long as the last, up to a quarter of an hour', () => {
    const { begin, pass } = limits()
    for (let i = 0; i < 5; i++) expect(begin('ada', '192.0.2.1')).toBe(0)
    const waits: number[] = []
    for (let i = 0; i < 12; i++) {
      const wait = begin('ada', `192.0.2.${i + 2}`)
      waits.push(wait)
      pass(wait)
      expect(begin('ada', `198.51.100.${i}`)).toBe(0)
    }
    expect(waits.slice(0, 4)).toEqual([2000, 4000, 8000, 16_000])
    expect(waits.at(-1)).toBe(15 * minuteMs)
  })

  it('made at the same time count before any is judged', () => {
    const { begin } = limits()
    const judged = Array.from({ length: 100 }, () => begin('ada', '192.0.2.1')).filter((wait) => wait === 0)
    expect(judged).toHaveLength(5)
  })

  it('are limited by address too, whatever the name, and a success of one name does not clear it', () => {
    const { begin, succeeded } = limits()
    for (let i = 0; i < 29; i++) expect(begin(`name-${i}`, '192.0.2.1')).toBe(0)
    expect(begin('own', '192.0.2.1')).toBe(0)
    succeeded('own', '192.0.2.1')
    expect(begin('name-30', '192.0.2.1')).toBe(0)
    expect(begin('name-31', '192.0.2.1')).toBeGreaterThan(0)
    expect(begin('name-31', '192.0.2.9')).toBe(0)
  })

  it('from one IPv6 network are from one place', () => {
    const { begin } = limits()
    for (let i = 0; i < 30; i++) expect(begin(`name-${i}`, `2001:db8:1:2::${i}`)).toBe(0)
    expect(begin('other', '2001:db8:1:2::ffff')).toBeGreaterThan(0)
    expect(begin('other', '2001:db8:1:3::1')).toBe(0)
  })

  it('are forgotten after an hour, or after a success of that name', () => {
    const { begin, succeeded, pass } = limits()
    for (let i = 0; i < 5; i++) begin('ada', '192.0.2.1')
    expect(begin('ada', '192.0.2.1')).toBeGreaterThan(0)
    pass(60 * minuteMs)
    expect(begin('ada', '192.0.2.1')).toBe(0)
    succeeded('ada', '192.0.2.1')
    for (let i = 0; i < 5; i++) expect(begin('ada', '192.0.2.1')).toBe(0)
  })

  it('that were neither right nor wrong do not count, and give no failures back', () => {
    const { begin, undecided } = limits()
    for (let i = 0; i < 4; i++) begin('ada', '192.0.2.1')
    for (let i = 0; i < 20; i++) {
      expect(begin('ada', '192.0.2.1')).toBe(0)
      undecided('ada', '192.0.2.1')
    }
    expect(begin('ada', '192.0.2.1')).toBe(0)
    expect(begin('ada', '192.0.2.1')).toBeGreaterThan(0)
  })
})
