import fc from 'fast-check'
import { expect, test } from 'vitest'
import { textWidth } from '../../../../web/views/marks/mark.ts'
import { placeLabels } from '../../../../web/views/marks/place-labels.ts'

test('no text lies over another, none leaves the bounds, the weightiest is always there', () => {
  const place = fc.record({ x: fc.integer({ min: 50, max: 350 }), y: fc.integer({ min: 30, max: 170 }) })
  fc.assert(
    fc.property(fc.array(place, { minLength: 1, maxLength: 30 }), (places) => {
      const marks = placeLabels(
        places.map((one, index) => ({
          ...one,
          text: `P${index}`,
          className: 'c',
          clearPixels: 6,
          weight: index,
        })),
        12,
        [0, 0, 400, 200],
      )
      const boxes = marks.map((mark) => {
        const width = textWidth(mark.text ?? '', 12)
        const anchor = mark.attributes['text-anchor']
        const x = Number(mark.attributes.x)
        const left = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2
        return { left, right: left + width, y: Number(mark.attributes.y) }
      })
      for (const one of boxes) {
        expect(one.left).toBeGreaterThanOrEqual(-0.1)
        expect(one.right).toBeLessThanOrEqual(400.1)
        for (const other of boxes)
          if (other !== one)
            expect(
              one.right <= other.left + 0.2 ||
                other.right <= one.left + 0.2 ||
                Math.abs(one.y - other.y) >= 13,
            ).toBe(true)
      }
      expect(marks.map((mark) => mark.text)).toContain(`P${places.length - 1}`)
    }),
    { seed: 5, numRuns: 60 },
  )
})
