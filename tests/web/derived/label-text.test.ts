import encodeQR from 'qr'
import decodeQR from 'qr/decode.js'
import { expect, test } from 'vitest'
import { labelText, readLabel } from '../../../web/derived/label-text.ts'

const document = {
  facts: { id: 'skarrow-quay' },
  instruments: [{ id: 'PZ-05', points: ['PZ-05A', 'PZ-05C'] }],
} as unknown as Parameters<typeof readLabel>[1]

test('a label as printed opens its instrument, whatever server it was printed by', () => {
  const text = labelText('http://127.0.0.1:8477', 'skarrow-quay', 'PZ-05')
  expect(readLabel(text, document)).toEqual({ instrument: 'PZ-05' })
  expect(readLabel(text.replace('127.0.0.1:8477', 'elsewhere.test'), document)).toEqual({
    instrument: 'PZ-05',
  })
})

test('a code drawn and read again by the library says the same', () => {
  const text = labelText('http://127.0.0.1:8477', 'skarrow-quay', 'PZ-05')
  const modules = encodeQR(text, 'raw', { ecc: 'quartile', border: 4 })
  const scale = 6
  const size = modules.length * scale
  const data = new Uint8ClampedArray(size * size * 4).fill(255)
  for (let y = 0; y < size; y++)
    for (let x = 0; x < size; x++)
      if (modules[Math.floor(y / scale)]?.[Math.floor(x / scale)])
        data.fill(0, (y * size + x) * 4, (y * size + x) * 4 + 3)
  expect(decodeQR({ width: size, height: size, data })).toBe(text)
})

test('a label of another site, of an unknown instrument, and any other code open nothing and say why', () => {
  const said = (text: string) => {
    const read = readLabel(text, document)
    return read.instrument === null ? read.sentence : 'opened'
  }
  expect(said(labelText('http://a.test', 'other-site', 'PZ-05'))).toContain('another site, "other-site"')
  expect(said(labelText('http://a.test', 'skarrow-quay', 'PZ-99'))).toContain('PZ-99')
  expect(said('https://example.test/menu')).toContain('no label')
  expect(said('4006381333931')).toContain('no label')
})
