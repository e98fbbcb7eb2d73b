import { mkdir, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { takeDeliveries } from '../../../api/intake/take-deliveries.ts'
import { intakeSite } from '../../support/intake-site.ts'
import { type OpenIntake, openIntake } from '../../support/open-intake.ts'

let open: OpenIntake
let folder: string
beforeEach(async () => {
  open = await openIntake()
  folder = join(open.folder, 'raw')
  await mkdir(join(folder, 'a'), { recursive: true })
  await writeFile(join(folder, 'a', 'wide-1.csv'), 'time,LG-01/1\n2027-03-01 00:00:00,1\n')
  await writeFile(join(folder, 'wide-2.csv'), 'time,LG-01/1\n2027-03-01 01:00:00,2\n')
})
afterEach(() => open.close())

const deliver = (text: string) => writeFile(join(folder, 'deliveries.csv'), text)

test('files come in the order, at the instants and from whom the list says', async () => {
  await deliver(
    'file,receivedAt,from\nwide-2.csv,2027-03-01T01:05:00Z,gateway GW-1\na/wide-1.csv,2027-03-01T03:00:00-01:00,"LG-01, by hand"\n',
  )
  const shares: number[] = []
  const receipts = await takeDeliveries({
    intake: open.intake,
    site: 'test-quay',
    folder,
    onProgress: (share) => shares.push(share),
  })
  expect(receipts).toMatchObject([
    {
      fileName: 'wide-2.csv',
      from: 'gateway GW-1',
      receivedAtEpochMs: Date.UTC(2027, 2, 1, 1, 5),
      accepted: 1,
    },
    {
      fileName: 'wide-1.csv',
      from: 'LG-01, by hand',
      receivedAtEpochMs: Date.UTC(2027, 2, 1, 4),
      accepted: 1,
    },
  ])
  expect(shares).toEqual([0.5, 1])
  const again = await takeDeliveries({ intake: open.intake, site: 'test-quay', folder })
  expect(again.map(({ accepted, repeated }) => [accepted, repeated])).toEqual([
    [0, 1],
    [0, 1],
  ])
})

test.each([
  ['file,receivedAt,from\n../secret.csv,2027-03-01T00:00:00Z,x\n', /outside its folder/],
  ['file,receivedAt,from\nwide-2.csv,yesterday,x\n', /line 2.*RFC 3339/],
  ['file,from\nwide-2.csv,x\n', /"receivedAt" is missing/],
])('a wrong list is refused: %j', async (text, message) => {
  await deliver(text)
  await expect(takeDeliveries({ intake: open.intake, site: 'test-quay', folder })).rejects.toThrow(message)
})

test('never for a site that is not invented', async () => {
  await deliver('file,receivedAt,from\nwide-2.csv,2027-03-01T01:05:00Z,x\n')
  const model = intakeSite()
  await open.store.putSite(
    { ...model, facts: { ...model.facts, invented: false, watermark: null } },
    { author: 'tester', reason: 'test', atEpochMs: 0 },
  )
  await expect(takeDeliveries({ intake: open.intake, site: 'test-quay', folder })).rejects.toThrow(
    /not an invented site/,
  )
})
