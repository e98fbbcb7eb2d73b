import { appendFile, mkdir, readdir, readFile, rename, rm, symlink, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Receipt } from '#contract/receipt.ts'
import {
  createInboxLook,
  type InboxFault,
  type InboxSettings,
  watchInbox,
} from '../../../api/intake/inbox.ts'
import { type OpenIntake, openIntake } from '../../support/open-intake.ts'

let open: OpenIntake
let inbox: string
let receipts: Receipt[]
let faults: InboxFault[]
let stop: AbortController

beforeEach(async () => {
  open = await openIntake()
  inbox = join(open.folder, 'inbox')
  await mkdir(inbox)
  receipts = []
  faults = []
  stop = new AbortController()
})
afterEach(() => open.close())

const settings = (more: Partial<InboxSettings> = {}): InboxSettings => ({
  folder: inbox,
  site: 'test-quay',
  intake: open.intake,
  onReceipt: (receipt) => receipts.push(receipt),
  onFault: (fault) => faults.push(fault),
  receivedAtEpochMs: () => Date.UTC(2027, 10, 1),
  settleMs: 0,
  signal: stop.signal,
  ...more,
})

const file = (hour: number, value = 1) =>
  `time,LG-01/1\n2027-03-01 ${String(hour).padStart(2, '0')}:00:00,${value}\n`
const put = (name: string, text: string) => writeFile(join(inbox, name), text)
const within = (name: string) => readdir(join(inbox, name)).catch(() => [])

test('a file is taken at the second look and moved to taken/', async () => {
  const look = createInboxLook(settings())
  await put('wide-1.csv', file(0))
  await look()
  expect(receipts).toEqual([])
  await look()
  expect(receipts).toMatchObject([{ outcome: 'taken', fileName: 'wide-1.csv', from: 'inbox', accepted: 1 }])
  expect(await within('taken')).toEqual(['wide-1.csv'])
  await look()
  expect(receipts).toHaveLength(1)
})

test('a file that still grows is left until it is whole', async () => {
  const look = createInboxLook(settings())
  await put('wide-1.csv', 'time,LG-01/1\n2027-03-01 00:0')
  await look()
  await appendFile(join(inbox, 'wide-1.csv'), '0:00,1\n2027-03-01 01:')
  await look()
  await appendFile(join(inbox, 'wide-1.csv'), '00:00,2\n')
  await look()
  expect(receipts).toEqual([])
  await look()
  expect(receipts).toMatchObject([{ accepted: 2, quarantined: 0 }])
})

test('a file must have stayed as it is for the settling time', async () => {
  const look = createInboxLook(settings({ settleMs: 150 }))
  await put('wide-1.csv', file(0))
  await look()
  await look()
  await look()
  expect(receipts).toEqual([])
  await new Promise((done) => setTimeout(done, 170))
  await look()
  expect(receipts).toHaveLength(1)
})

test('names of unfinished files wait until they are renamed', async () => {
  const look = createInboxLook(settings())
  for (const name of ['wide-1.csv.part', 'wide-2.csv.tmp', 'wide-3.csv.filepart', '.wide-4.csv'])
    await put(name, file(0))
  await look()
  await look()
  expect(receipts).toEqual([])
  await rename(join(inbox, 'wide-1.csv.part'), join(inbox, 'wide-1.csv'))
  await look()
  await look()
  expect(receipts).toMatchObject([{ fileName: 'wide-1.csv' }])
})

test('a refused file goes to refused/ with its reason beside it', async () => {
  const look = createInboxLook(settings())
  await put('note.txt', 'nothing to see\n')
  await look()
  await look()
  expect(receipts).toMatchObject([{ outcome: 'refused' }])
  expect((await within('refused')).sort()).toEqual(['note.txt', 'note.txt.txt'])
  expect(await readFile(join(inbox, 'refused', 'note.txt.txt'), 'utf8')).toBe(`${receipts[0]?.message}\n`)
})

test('folders one deep name the source; deeper ones and links are left alone and said', async () => {
  await mkdir(join(inbox, 'gateway-1', 'deeper'), { recursive: true })
  await put('gateway-1/wide-1.csv', file(0))
  await put('gateway-1/deeper/wide-2.csv', file(1))
  await symlink('/etc/hostname', join(inbox, 'wide-9.csv'))
  const look = createInboxLook(settings())
  await look()
  await look()
  expect(receipts).toMatchObject([{ fileName: 'wide-1.csv', from: 'inbox, gateway-1' }])
  expect(await within('taken/gateway-1')).toEqual(['wide-1.csv'])
  expect(faults.map(({ message }) => message.split(' is left')[0]).sort()).toEqual([
    'gateway-1/deeper',
    'wide-9.csv',
  ])
})

test('the same name again is kept beside the first', async () => {
  const look = createInboxLook(settings())
  for (const hour of [0, 1, 2]) {
    await put('wide-1.csv', file(hour))
    await look()
    await look()
  }
  expect((await within('taken')).sort()).toEqual(['wide-1-2.csv', 'wide-1-3.csv', 'wide-1.csv'])
  expect(await open.readings()).toHaveLength(3)
})

test('a file that vanishes, and a folder that cannot be read', async () => {
  const look = createInboxLook(settings())
  await put('wide-1.csv', file(0))
  await put('wide-2.csv', file(1))
  await look()
  await rm(join(inbox, 'wide-1.csv'))
  await look()
  expect(receipts).toMatchObject([{ fileName: 'wide-2.csv' }])
  await rm(inbox, { recursive: true })
  await look()
  expect(faults).toMatchObject([{ path: inbox }])
  expect(faults[0]?.message).toMatch(/could not be read/)
})

test('a failing store leaves the file where it is, says so once, and lets the others through', async () => {
  const takeFile: OpenIntake['intake']['takeFile'] = async (request) => {
    if (request.fileName === 'wide-1.csv') throw new Error('disk full')
    return open.intake.takeFile(request)
  }
  const look = createInboxLook(settings({ intake: { takeFile } }))
  await put('wide-1.csv', file(0))
  await put('wide-2.csv', file(1))
  for (let i = 0; i < 4; i++) await look()
  expect(receipts).toMatchObject([{ fileName: 'wide-2.csv' }])
  expect(faults).toMatchObject([{ message: 'wide-1.csv could not be taken and is tried again: disk full' }])
  expect(await readdir(inbox)).toContain('wide-1.csv')
})

test('a file written to while it was taken is taken again when it has settled', async () => {
  const takeFile: OpenIntake['intake']['takeFile'] = async (request) => {
    const receipt = await open.intake.takeFile(request)
    if (receipts.length === 0) await appendFile(join(inbox, 'wide-1.csv'), '2027-03-01 05:00:00,5\n')
    return receipt
  }
  const look = createInboxLook(settings({ intake: { takeFile } }))
  await put('wide-1.csv', file(0))
  for (let i = 0; i < 4; i++) await look()
  expect(receipts.map(({ accepted, repeated }) => [accepted, repeated])).toEqual([
    [1, 0],
    [1, 1],
  ])
  expect(await within('taken')).toEqual(['wide-1.csv'])
})

test('watches until the signal', async () => {
  const watching = watchInbox(
    settings({
      pollMs: 20,
      onReceipt: (receipt) => {
        receipts.push(receipt)
        stop.abort()
      },
    }),
  )
  await put('wide-1.csv', file(0))
  await watching
  expect(receipts).toHaveLength(1)
})
