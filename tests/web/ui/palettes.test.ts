import { describe, expect, it } from 'vitest'
import { cssVariables, type Palette, palettes, toRgba } from '../../../web/ui/palettes.ts'
import { standingColour } from '../../../web/ui/state-scale.ts'

/** WCAG 2.2 relative luminance and contrast ratio. */
function luminance(colour: string): number {
  const [red, green, blue] = [1, 3, 5].map((place) => {
    const share = Number.parseInt(colour.slice(place, place + 2), 16) / 255
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4
  }) as [number, number, number]
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue
}

function contrast(one: string, other: string): number {
  const [low, high] = [luminance(one), luminance(other)].sort((a, b) => a - b) as [number, number]
  return (high + 0.05) / (low + 0.05)
}

const papers = ['paper', 'sheet', 'raised'] as const
const texts = ['ink', 'inkSoft', 'accent'] as const

describe.each(Object.entries(palettes) as [string, Palette][])('%s', (_, palette) => {
  it.each(papers.flatMap((paper) => texts.map((text) => [text, paper] as const)))(
    'text in %s reads on %s',
    (text, paper) => {
      expect(contrast(palette[text], palette[paper])).toBeGreaterThanOrEqual(4.5)
    },
  )

  it.each([
    ['onAccent', 'accent'],
    ['warningInk', 'warningPaper'],
    ['planLabel', 'ground'],
    ['planLabel', 'made'],
    ['planLabel', 'water'],
    ['planLabel', 'building'],
    ['planLabel', 'excavation'],
    ['notMet', 'sheet'],
    ['settled', 'halo'],
    ['heaved', 'halo'],
  ] as const)('text in %s reads on %s', (text, paper) => {
    expect(contrast(palette[text], palette[paper])).toBeGreaterThanOrEqual(4.5)
  })

  it('keeps 3 to 1 between every fill of a state and what lies under it', () => {
    for (const levels of [1, 2, 3, 6]) {
      const fills = ['within', ...Array.from({ length: levels }, (_, level) => `level-${level + 1}`)]
      for (const standing of fills) {
        const fill = standingColour(standing as 'within', levels, palette)
        expect(fill, standing).not.toBeNull()
        expect(contrast(fill ?? '', palette.halo), `${standing} of ${levels}`).toBeGreaterThanOrEqual(3)
      }
    }
  })

  it('keeps focus at 3 to 1 on every paper', () => {
    for (const paper of papers) expect(contrast(palette.focus, palette[paper])).toBeGreaterThanOrEqual(3)
  })

  it('has only colours of six digits, each with its variable', () => {
    for (const colour of Object.values(palette)) expect(colour).toMatch(/^#[0-9a-f]{6}$/)
    expect(cssVariables(palette)).toContainEqual(['--ink-soft', palette.inkSoft])
    expect(cssVariables(palette)).toHaveLength(Object.keys(palette).length)
  })
})

it.each(papers.flatMap((paper) => texts.map((text) => [text, paper] as const)))(
  'in sunlight %s reads on %s at 7 to 1 (WCAG 2.2, 1.4.6)',
  (text, paper) => {
    expect(contrast(palettes.sun[text], palettes.sun[paper])).toBeGreaterThanOrEqual(7)
  },
)

it.each([
  ['onAccent', 'accent'],
  ['warningInk', 'warningPaper'],
  ['planLabel', 'ground'],
  ['planLabel', 'made'],
  ['planLabel', 'water'],
  ['planLabel', 'building'],
  ['planLabel', 'excavation'],
  ['notMet', 'sheet'],
  ['met', 'sheet'],
  ['settled', 'halo'],
  ['heaved', 'halo'],
] as const)('in sunlight text in %s reads on %s at 7 to 1', (text, paper) => {
  expect(contrast(palettes.sun[text], palettes.sun[paper])).toBeGreaterThanOrEqual(7)
})

describe.each(['lightRoom', 'darkRoom'] as const)('in the %s of a meeting', (name) => {
  const room = palettes[name]
  it.each([
    ...papers.flatMap((paper) => texts.map((text) => [text, paper] as const)),
    ['onAccent', 'accent'],
    ['warningInk', 'warningPaper'],
    ['planLabel', 'ground'],
    ['planLabel', 'made'],
    ['planLabel', 'water'],
    ['planLabel', 'building'],
    ['planLabel', 'excavation'],
    ['ink', 'halo'],
    ['met', 'sheet'],
    ['notMet', 'sheet'],
    ['settled', 'sheet'],
    ['heaved', 'sheet'],
    ['tunnel', 'sheet'],
    ['service', 'sheet'],
    ['settled', 'halo'],
    ['heaved', 'halo'],
  ] as const)('text in %s reads on %s at 7 to 1 (WCAG 2.2, 1.4.6)', (text, paper) => {
    expect(contrast(room[text], room[paper])).toBeGreaterThanOrEqual(7)
  })

  it('tells levels apart in grey', () => {
    const greys = ['within', 'level-1', 'level-2', 'level-3'].map((standing) =>
      luminance(standingColour(standing as 'within', 3, room) ?? ''),
    )
    const [, ...levels] = greys as [number, number, number, number]
    for (const [one, other] of [
      [0, 1],
      [1, 2],
    ] as const)
      expect(Math.abs((levels[one] ?? 0) - (levels[other] ?? 0))).toBeGreaterThan(0.01)
  })
})

it('takes a colour apart for the map', () => {
  expect(toRgba('#0a1bff', 7)).toEqual([10, 27, 255, 7])
})
