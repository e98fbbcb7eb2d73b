import { describe, expect, test } from 'vitest'
import { tiltLines } from '#domain/reduction/tilt-lines.ts'

const shown = (value: number, unit: string, uncertainty: number | null = null) =>
  tiltLines(value, unit, uncertainty).map(({ output, outputUnit, standardUncertainty }) => [
    outputUnit,
    output === null ? null : Number(output.toFixed(4)),
    standardUncertainty === null ? null : Number(standardUncertainty.toFixed(4)),
  ])

describe('a tilt is told in every way it is read', () => {
  test.each([
    [
      1,
      'deg',
      [
        ['mm/m', 17.4551, null],
        ["''", 3600, null],
      ],
    ],
    [2, 'mm/m', [["''", 412.5291, null]]],
    [3600, "''", [['mm/m', 17.4551, null]]],
    [5, 'kPa', []],
  ] as const)('%d %s', (value, unit, expected) => {
    expect(shown(value, unit)).toEqual(expected)
  })

  test('with its uncertainty in the same unit', () => {
    expect(shown(2, 'mm/m', 0.01)).toEqual([["''", 412.5291, 2.0626]])
  })

  test('as a sentence', () => {
    expect(tiltLines(1, 'deg', null).map(({ sentence }) => sentence)).toEqual([
      'The same in millimetres in a metre: 17.4551 mm/m.',
      'The same in seconds of arc: 3600″.',
    ])
  })
})
