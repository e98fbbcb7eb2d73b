import { expect, test } from 'vitest'
import { describeNote, noteMarks, placedNotes } from '../../../web/derived/note-marks.ts'
import { fieldEntry, note } from '../../support/field-entries.ts'

const at = Date.UTC(2027, 9, 21)
const position = { eastingMetres: 10, northingMetres: 20, accuracyMetres: 4 }
const damage = { kind: 'damage', about: 'PZ-01', atEpochMs: at - 1000, text: 'lid broken' } as const
const later = { ...damage, atEpochMs: at + 1000 }
const placeOf = (name: string) => (name === 'PZ-01' ? { eastingMetres: 10.2, northingMetres: 20.3 } : null)

test('notes stand where their writer stood, else where what they name stands; none is lost for want of a place', () => {
  const entries = [
    fieldEntry(1, note('puddle'), { site: 'here', position }),
    fieldEntry(2, damage, { site: 'here' }),
    fieldEntry(3, later, { site: 'here' }),
    fieldEntry(4, note('about nobody', 'gone'), { site: 'here' }),
  ]
  const notes = placedNotes(entries, placeOf, at)
  expect(notes.map(({ text }) => text)).toEqual(['lid broken', 'puddle', 'about nobody'])
  const marks = noteMarks(notes, ([east, north]) => [east, north])
  expect(marks).toMatchObject([{ id: '10 20', sign: '! n', longitude: 10.2, latitude: 20.3 }])
  expect(marks[0]?.notes.map(describeNote)).toEqual([
    'Damage on PZ-01: lid broken, A. Walker',
    'Note: puddle, A. Walker',
  ])
})
