import { describe, expect, it } from 'vitest'
import { packetsToSettle, settlingSentence } from '#domain/radio/packets-to-settle.ts'
import { wilsonInterval } from '#domain/statistics/wilson-interval.ts'

describe('packets to settle', () => {
  it('asks for none where the interval lies on one side already', () => {
    expect(packetsToSettle(20, 20)).toEqual({ furtherPackets: 0, side: 'above' })
    expect(packetsToSettle(0, 20)).toEqual({ furtherPackets: 0, side: 'below' })
  })

  it('asks for the fewest for which the interval would', () => {
    const { furtherPackets, side } = packetsToSettle(12, 20)
    expect(side).toBe('above')
    const total = 20 + (furtherPackets as number)
    expect(wilsonInterval(Math.round(0.6 * total), total).low).toBeGreaterThanOrEqual(0.5)
    expect(wilsonInterval(Math.round(0.6 * (total - 1)), total - 1).low).toBeLessThan(0.5)
  })

  it('never settles a share of exactly what is required', () => {
    const settling = packetsToSettle(5, 10)
    expect(settling).toEqual({ furtherPackets: null, side: 'open' })
    expect(settlingSentence(settling, 0.5)).toContain('not even 2000 more packets')
  })

  it('counts against another required share', () => {
    expect(packetsToSettle(10, 10, 0.95).furtherPackets).toBeGreaterThan(0)
    expect(packetsToSettle(0, 0)).toEqual({ furtherPackets: null, side: 'open' })
  })
})
