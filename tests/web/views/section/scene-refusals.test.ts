import { describe, expect, test } from 'vitest'
import type { SectionPoint, SectionProps } from '../../../../web/views/section/section-props.ts'
import { sectionRemarks } from '../../../../web/views/section/section-table.ts'
import { drawn, has, hole, section, tip } from './made-section.ts'

test('without a line it asks for one', () => {
  expect(drawn({ line: [] }).map((mark) => mark.text)).toEqual(['Draw a line on the plan to cut a section.'])
})

describe('what cannot be mistaken for ground that stands still', () => {
  const far: Partial<SectionProps> = {
    line: [
      [10.7, 59.9],
      [10.8, 59.95],
    ],
    points: section.points.map((one) => ({ ...one, eastingMetres: 500_000, northingMetres: 310_000 })),
    holes: section.holes.map((one) => ({ ...one, eastingMetres: 500_000, northingMetres: 310_000 })),
    works: { type: 'FeatureCollection', features: [] },
  }
  const words = (changes: Partial<SectionProps>) =>
    drawn(changes)
      .filter((mark) => has(mark, 'message'))
      .map((mark) => mark.text)
      .join(' ')

  test('a line that crosses nothing has no ground, and says what to do', () => {
    const marks = drawn(far)
    expect(marks.some((mark) => has(mark, 'earth') || has(mark, 'ground-line'))).toBe(false)
    expect(words(far)).toContain('Nothing of the site lies on this line')
    expect(words(far)).toContain('read like degrees')
    expect(sectionRemarks({ ...section, ...far }).join(' ')).toContain('none was looked for here')
    expect(
      words({
        ...far,
        line: [
          [400_000, 1],
          [400_050, 1],
        ],
      }),
    ).toContain('326 km away')
  })

  test('a line without length says so', () => {
    expect(
      words({
        line: [
          [5, 5],
          [5, 5],
        ],
      }),
    ).toContain('The line has no length')
  })

  test('marks without values, late marks and no marks each have their sentence', () => {
    const mark = (point: string, eastingMetres: number, changes: Partial<SectionPoint>) =>
      tip({
        point,
        kind: 'settlement-point',
        measure: 'settlement',
        unit: 'mm',
        eastingMetres,
        northingMetres: 0,
        levelMetres: 4,
        value: 5,
        ...changes,
      })
    const said = (points: readonly SectionPoint[]) => sectionRemarks({ ...section, points }).join(' ')
    expect(said([])).toContain('No levelled mark lies within 10 m of the line')
    expect(said([mark('SP-1', 5, { value: null })])).toContain('None of 1 levelled marks has a value')
    const late = [mark('SP-1', 5, {}), mark('SP-2', 15, { standing: 'late' }), mark('SP-3', 25, {})]
    expect(said(late)).toContain('1 is not current and joined by dots')
    const traces = drawn({ points: late }).filter((one) => has(one, 'settlement'))
    expect(traces.map((one) => has(one, 'late'))).toEqual([true])
    const missing = [mark('SP-1', 5, {}), mark('SP-2', 15, { value: null }), mark('SP-3', 25, {})]
    expect(drawn({ points: missing }).some((one) => has(one, 'settlement'))).toBe(false)
  })

  test('movements that run out of the drawing are said to', () => {
    const shape = {
      instrument: 'IP-1',
      hole: hole('IP-1', 50, 0),
      late: false,
      places: [
        { depthMetres: 0, alongMillimetres: 200 },
        { depthMetres: 10, alongMillimetres: 0 },
      ],
    }
    const said = (movementExaggeration: number) =>
      sectionRemarks({ ...section, shapes: [shape], movementExaggeration }).join(' ')
    expect(said(500)).toContain('choose fewer times')
    expect(said(50)).not.toContain('choose fewer times')
  })
})
