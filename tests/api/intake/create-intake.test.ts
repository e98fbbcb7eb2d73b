import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { type OpenIntake, openIntake } from '../../support/open-intake.ts'

let open: OpenIntake
beforeEach(async () => {
  open = await openIntake()
})
afterEach(() => open.close())

const wide = `time,LG-01/1,LG-01/2,70412/1
2027-03-01 00:00:00,1.5,2.5,3.5
2027-03-01 01:00:00,1.6,,3.6
`

describe('taking a file', () => {
  test('a wide file: serials become loggers, an empty cell is absent', async () => {
    const receipt = await open.take('wide-1.csv', wide)
    expect(receipt).toMatchObject({
      outcome: 'taken',
      layout: 'wide',
      layoutVersion: 1,
      accepted: 5,
      repeated: 0,
      conflicting: 0,
      quarantined: 0,
      absent: 1,
      firstEpochMs: Date.UTC(2027, 2, 1),
      lastEpochMs: Date.UTC(2027, 2, 1, 1),
    })
    expect(await open.readings()).toEqual([
      ['LG-01/1', '2027-03-01T00:00:00Z', 1.5],
      ['LG-01/1', '2027-03-01T01:00:00Z', 1.6],
      ['LG-01/2', '2027-03-01T00:00:00Z', 2.5],
      ['LG-02/1', '2027-03-01T00:00:00Z', 3.5],
      ['LG-02/1', '2027-03-01T01:00:00Z', 3.6],
    ])
  })

  test('a long file with decimal commas', async () => {
    const receipt = await open.take(
      'long-1.csv',
      'when;serial;channel;raw\r\n01.03.2027 00:00;70411;1;1,25\r\n01.03.2027 00:00;LG-02;1;-3,5e2\r\n',
    )
    expect(receipt).toMatchObject({ outcome: 'taken', layout: 'long', accepted: 2 })
    expect(await open.readings()).toEqual([
      ['LG-01/1', '2027-03-01T00:00:00Z', 1.25],
      ['LG-02/1', '2027-03-01T00:00:00Z', -350],
    ])
  })
})
