import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { isNotFiniteText, parseNumber } from '../../../api/intake/parse-number.ts'

const point = 0x2e
const comma = 0x2c

function parse(text: string, mark = point): number {
  const bytes = new TextEncoder().encode(`<${text}>`)
  return parseNumber(bytes, 1, bytes.length - 1, mark)
}

describe('the double that Number() gives', () => {
  const digits = (max: number) => fc.string({ unit: fc.constantFrom(...'0123456789'), maxLength: max })
  const numberText = fc
    .record({
      sign: fc.constantFrom('', '+', '-'),
      whole: digits(22),
      mark: fc.boolean(),
      fraction: digits(22),
      exponent: fc.option(fc.tuple(fc.constantFrom('e', 'E'), fc.constantFrom('', '+', '-'), fc.nat(340))),
    })
    .filter(({ whole, mark, fraction }) => whole !== '' || (mark && fraction !== ''))
    .map(({ sign, whole, mark, fraction, exponent }) =>
      [sign, whole, mark ? `.${fraction}` : '', exponent ? exponent.join('') : ''].join(''),
    )

  test('for every text of the grammar', () => {
    fc.assert(
      fc.property(numberText, (text) => {
        expect(parse(text)).toBe(Number(text))
        expect(parse(text.replace('.', ','), comma)).toBe(Number(text))
      }),
      { seed: 7, numRuns: 20_000 },
    )
  })

  test('for every double as it is printed', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        expect(parse(String(value))).toBe(Number(String(value)))
        expect(parse(value.toFixed(3))).toBe(Number(value.toFixed(3)))
        expect(parse(value.toExponential(12))).toBe(Number(value.toExponential(12)))
      }),
      { seed: 8, numRuns: 10_000 },
    )
  })

  test.each([
    '-0',
    '0.0',
    '-0e9',
    '9007199254740993',
    '1e22',
    '1e23',
    '123456789012345e22',
    '4.9e-324',
    '2.2250738585072011e-308',
    '1e309',
    '-1e400',
    '0e999999999999',
    '  12.5\t',
  ])('%s', (text) => {
    expect(parse(text)).toBe(Number(text))
  })
})

test('whatever is not a number is NaN, never a part of one', () => {
  const strict = /^[\t ]*[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?[\t ]*$/i
  fc.assert(
    fc.property(fc.string({ unit: fc.constantFrom(...'0189.,+-eE xn\t'), maxLength: 8 }), (text) => {
      if (strict.test(text)) expect(parse(text)).toBe(Number(text))
      else expect(parse(text)).toBeNaN()
    }),
    { seed: 9, numRuns: 20_000 },
  )
  for (const text of [
    '',
    ' ',
    '.',
    '-',
    '+.',
    '1e',
    '1e+',
    '0x10',
    '1_000',
    '1,5',
    '12 3',
    'NaN',
    'Infinity',
    '1.5.2',
    '٣',
  ])
    expect(parse(text)).toBeNaN()
  expect(parse('1.5', comma)).toBeNaN()
})

test.each([
  'NaN',
  'NAN',
  '-nan',
  'inf',
  '+Inf',
  'Infinity',
  '1.#QNAN',
  '-1.#IND00',
  'overflow',
  'over-range',
])('%s is not finite', (text) => expect(isNotFiniteText(text)).toBe(true))
test.each(['', 'n/a', 'infra', '1', 'nano'])('"%s" is no sign of a number that is not finite', (text) =>
  expect(isNotFiniteText(text)).toBe(false),
)
