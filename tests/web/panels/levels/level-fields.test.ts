import { describe, expect, test } from 'vitest'
import { draftOf } from '#domain/levels/levels-csv.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { fieldsOfLevel, levelOfFields } from '../../../../web/panels/levels/level-fields.ts'
import { levelFor } from '../../../support/level-for.ts'

const zone = 'Atlantic/Azores'
const at = Date.UTC(2027, 5, 1, 12)
const given = { series: 'P-1/settlement', fromEpochMs: at, zone }
const round = (changed: Partial<TriggerLevel>) => {
  const level = draftOf(levelFor({ validFrom: at, ...changed }))
  return { level, back: levelOfFields(fieldsOfLevel(level, given), zone) }
}

describe('a level in a form', () => {
  test.each<Partial<TriggerLevel>>([
    { value: -12.5, direction: 'below', holdReadings: 3, holdMinutes: 60, hysteresisShare: 0.1 },
    {
      watches: 'rate',
      windowMinutes: 1440,
      longestGapMinutes: 90,
      stage: 'dig',
      validUntil: at + 86_400_000,
    },
    { watches: 'change', changeSince: Date.UTC(2027, 4, 1) },
    { watches: 'difference', against: 'P-2/settlement', windowMinutes: 60 },
    { watches: 'silence', value: 120, holdMinutes: 720 },
    { watches: 'combination', against: 'a; b', value: 2 },
    { watches: 'combination', against: 'a;b;c', needed: 2, value: 2 },
  ])('%j comes back as it was', (changed) => {
    const { level, back } = round(changed)
    expect(back).toMatchObject({ level })
  })

  test('leaves out what its kind does not look at', () => {
    const fields = fieldsOfLevel(
      draftOf(levelFor({ windowMinutes: 60, holdReadings: 3, direction: 'below' })),
      given,
    )
    expect(levelOfFields({ ...fields, watches: 'silence' }, zone)).toMatchObject({
      level: { direction: 'above', windowMinutes: null, holdReadings: null, watches: 'silence' },
    })
  })

  test('says which fields cannot be read', () => {
    const read = levelOfFields({ ...fieldsOfLevel(null, given), value: '1,5' }, zone)
    expect('unread' in read && [...read.unread.keys()]).toEqual([
      'id',
      'value',
      'action',
      'owner',
      'withinMinutes',
      'reason',
    ])
    expect('unread' in read && read.unread.get('value')).toMatch(/decimal point/)
  })
})
