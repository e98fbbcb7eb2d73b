import { describe, expect, it } from 'vitest'
import { programme } from '../../../sample-site/models/programme.ts'
import { deliveredShare, pathLossDb, signalDbm } from '../../../sample-site/models/radio.ts'

describe('radio', () => {
  it('loses 31.2 dB in the first metre and 29 dB in each ten times the distance', () => {
    expect(pathLossDb(1)).toBeCloseTo(31.2, 12)
    expect(pathLossDb(100) - pathLossDb(10)).toBeCloseTo(29, 12)
  })

  it('falls from 0.999 to 0.14 delivered at LG-19 while the containers stand', () => {
    const metres = 39
    const before = signalDbm('LG-19', metres, programme.containersFrom - 1)
    const behind = signalDbm('LG-19', metres, programme.containersFrom)
    expect(before).toBeCloseTo(-116, 0)
    expect(before - behind).toBeCloseTo(27.5, 9)
    expect(deliveredShare(before)).toBeGreaterThan(0.995)
    expect(deliveredShare(behind)).toBeCloseTo(0.14, 1)
  })
})
