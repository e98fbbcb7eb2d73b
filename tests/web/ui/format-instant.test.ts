import fc from 'fast-check'
import { describe, expect, it, vi } from 'vitest'
import {
  formatAge,
  formatDay,
  formatInstant,
  formatOffset,
  formatShortInstant,
  fromLocalField,
  toLocalField,
} from '../../../web/ui/format-instant.ts'

const zone = 'Atlantic/Azores'

describe('site time', () => {
  it('has words of its own for days, months and offsets, whatever a machine calls them', () => {
    const original = Intl.DateTimeFormat.prototype.formatToParts
    const other = vi.spyOn(Intl.DateTimeFormat.prototype, 'formatToParts').mockImplementation(function (
      this: Intl.DateTimeFormat,
      at,
    ) {
      return original
        .call(this, at)
        .map((part) => (/^\d+$/.test(part.value) ? part : { ...part, value: 'x' }))
    })
    const at = Date.UTC(2027, 8, 5, 8, 7)
    expect(formatInstant(at, zone)).toBe('Sun 5 Sep 2027 08:07')
    expect(formatDay(at, zone)).toBe('5 Sep 2027')
    expect(formatShortInstant(at, zone)).toBe('5 Sep 08:07')
    expect(formatOffset(at, 'Asia/Kathmandu')).toBe('UTC+05:45')
    expect(formatOffset(at, 'America/St_Johns')).toBe('UTC−02:30')
    other.mockRestore()
  })

  it('tells the repeated half hour apart by its offset', () => {
    const first = Date.UTC(2027, 9, 31, 0, 30)
    const second = Date.UTC(2027, 9, 31, 1, 30)
    expect(formatInstant(first, zone)).toBe('Sun 31 Oct 2027 00:30')
    expect(formatInstant(second, zone)).toBe('Sun 31 Oct 2027 00:30')
    expect(formatOffset(first, zone)).toBe('UTC+00:00')
    expect(formatOffset(second, zone)).toBe('UTC−01:00')
  })

  it('reads a field back to the minute it showed, of a repeated hour the first', () => {
    fc.assert(
      fc.property(fc.integer({ min: Date.UTC(2027, 0, 1), max: Date.UTC(2028, 0, 1) }), (instant) => {
        const minute = Math.floor(instant / 60_000) * 60_000
        const back = fromLocalField(toLocalField(minute, zone), zone)
        expect([minute, minute - 3_600_000]).toContain(back)
      }),
      { seed: 20271031 },
    )
    expect(fromLocalField('2027-10-31T00:30', zone)).toBe(Date.UTC(2027, 9, 31, 0, 30))
    expect(fromLocalField('', zone)).toBeNull()
  })

  it.each([
    [-5, '0 min'],
    [59 * 60_000, '59 min'],
    [200 * 60_000, '3 h 20 min'],
    [25 * 3_600_000, '25 h'],
    [12 * 86_400_000, '12 d'],
  ])('says how long %d ms is', (length, text) => {
    expect(formatAge(length)).toBe(text)
  })
})
