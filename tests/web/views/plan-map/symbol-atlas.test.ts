import { describe, expect, it } from 'vitest'
import { instrumentKinds } from '#domain/site/vocabulary.ts'
import { palettes } from '../../../../web/ui/palettes.ts'
import { arcIcon, planAtlas, symbolIcon } from '../../../../web/views/plan-map/symbol-atlas.ts'

const atlas = planAtlas(palettes.paper, 3)

describe('icon sheet', () => {
  it('has an icon for everything that a symbol can be', () => {
    for (const kind of instrumentKinds) {
      for (const standing of [
        'unknown',
        'late',
        'no-level',
        'within',
        'level-1',
        'level-2',
        'level-3',
      ] as const) {
        for (const partLate of [true, false])
          expect(atlas.icons).toHaveProperty([symbolIcon(kind, standing, partLate)])
      }
    }
    for (let share = 0; share <= 2; share += 0.01) expect(atlas.icons).toHaveProperty([arcIcon(share)])
    for (const name of ['arc-track', 'logger', 'gateway']) expect(atlas.icons).toHaveProperty([name])
  })

  it('lays them out apart from each other and inside the sheet', () => {
    const places = Object.values(atlas.icons).map((icon) => `${icon.x},${icon.y}`)
    expect(new Set(places).size).toBe(places.length)
    for (const icon of Object.values(atlas.icons)) {
      expect(icon.x + icon.width).toBeLessThanOrEqual(atlas.widthPixels)
      expect(icon.y + icon.height).toBeLessThanOrEqual(atlas.heightPixels)
    }
  })

  it('stays within what a tablet’s graphics memory takes in one piece', () => {
    const largest = planAtlas(palettes.paper, 6)
    expect(Math.max(largest.widthPixels, largest.heightPixels)).toBeLessThanOrEqual(4096)
  })

  it('is well-formed', () => {
    const parsed = new DOMParser().parseFromString(atlas.svg, 'image/svg+xml')
    expect(parsed.querySelector('parsererror')).toBeNull()
    expect(parsed.documentElement.children).toHaveLength(Object.keys(atlas.icons).length)
  })

  it('shows a little of any share above nought, and a full ring only from the level on', () => {
    expect(arcIcon(0)).toBe('arc/0')
    expect(arcIcon(0.001)).toBe('arc/1')
    expect(arcIcon(5)).toBe('arc/40')
  })
})
