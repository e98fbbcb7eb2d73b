import { describe, expect, it } from 'vitest'
import { diffractionLoss } from '#domain/radio/diffraction.ts'
import { approximateKnifeEdgeLossDb, knifeEdgeNumber } from '#domain/radio/knife-edge.ts'
import { crossingsOf, isInside } from '#domain/radio/obstruction.ts'
import { pathEdges } from '#domain/radio/path-edges.ts'

const wavelength = 0.345
const ground = { places: [], pits: [] }
const square = [
  [40, -10],
  [60, -10],
  [60, 10],
  [40, 10],
  [40, -10],
] as const
const block = {
  id: 'block',
  name: 'Block',
  outline: square,
  topLevelMetres: 12,
  fromEpochMs: 100,
  untilEpochMs: 200,
}
const from = { eastingMetres: 0, northingMetres: 0, levelMetres: 5 }
const to = { eastingMetres: 100, northingMetres: 0, levelMetres: 5 }

describe('edges of a path', () => {
  it('are the crossings of what stands at the instant, with the ground', () => {
    const edges = pathEdges(from, to, [block], ground, 150).filter(({ name }) => name === 'Block')
    expect(edges.map(({ distanceMetres }) => distanceMetres)).toEqual([40, 60])
    expect(pathEdges(from, to, [block], ground, 200).every(({ name }) => name === 'ground')).toBe(true)
  })

  it('leave out the face that an antenna is mounted on', () => {
    const onFace = { ...to, eastingMetres: 39.8 }
    expect(pathEdges(from, onFace, [block], ground, 150).some(({ name }) => name === 'Block')).toBe(false)
    const crossed = crossingsOf([0, 0], [100, 0], square)
    expect(crossed).toEqual([0.4, 0.6])
    expect(isInside([50, 0], square)).toBe(true)
    expect(isInside([50, 0], square.slice(0, 3))).toBe(false)
  })

  it('one edge takes what its number says, two edges of one thing count once', () => {
    const edge = { name: 'Wall', distanceMetres: 40, levelMetres: 12 }
    const alone = diffractionLoss(5, 5, 100, [edge], wavelength)
    const v = knifeEdgeNumber(7, 40, 60, wavelength)
    expect(alone).toEqual({ lossDb: approximateKnifeEdgeLossDb(v), mainEdge: 'Wall' })
    const both = diffractionLoss(5, 5, 100, [edge, { ...edge, distanceMetres: 60 }], wavelength)
    expect(both.lossDb).toBeCloseTo(alone.lossDb, 9)
  })

  it('further things add to the main one, and a raised antenna clears them', () => {
    const edges = [
      { name: 'Wall', distanceMetres: 40, levelMetres: 12 },
      { name: 'Stack', distanceMetres: 80, levelMetres: 11 },
    ]
    const one = diffractionLoss(5, 5, 100, edges.slice(0, 1), wavelength).lossDb
    expect(diffractionLoss(5, 5, 100, edges, wavelength).lossDb).toBeGreaterThan(one)
    expect(diffractionLoss(30, 30, 100, edges, wavelength)).toEqual({ lossDb: 0, mainEdge: null })
  })
})
