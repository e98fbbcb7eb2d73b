import { describe, expect, it, test } from 'vitest'
import { boardListFaults } from '#domain/meeting/board-faults.ts'
import type { Meeting } from '#domain/meeting/meeting.ts'
import { firstBoards } from '../../../../web/panels/meetings/first-boards.ts'
import { boardAddress, guessBoard } from '../../../../web/panels/meetings/guess-board.ts'
import { readAddress, writeAddress } from '../../../../web/state/address.ts'
import { type AddressState, emptyAddress } from '../../../../web/state/address-state.ts'
import { sheetTabs } from '../../../../web/state/sheet.ts'

const seen = (some: Partial<AddressState>) =>
  guessBoard({ ...emptyAddress, site: 'small', ...some }, { zone: 'Atlantic/Azores' })
const point = { kind: 'point' as const, point: 'SP-1', measure: null }

describe('what is seen as a board', () => {
  it.each([
    [{ tab: 'history', selection: point }, 'history', 'SP-1 over time'],
    [{ tab: 'history' }, 'plan', 'Where everything stands'],
    [{ tab: 'profile', selection: { kind: 'instrument', instrument: 'IP-1' } }, 'profile', 'IP-1 by depth'],
    [{ tab: 'section' }, 'section', 'Section'],
    [{ tab: 'alerts' }, 'exceedances', 'Levels reached, and what was done'],
    [{ tab: 'network' }, 'network', 'Loggers and what they delivered'],
    [{ tab: 'meetings' }, 'minutes', 'What was agreed, and what is still open'],
    [{ tab: 'register', layers: ['change'] }, 'change', 'Change on the plan'],
    [{ tab: 'record', layers: ['water'], surfaceStratum: 'sand' }, 'plan', 'Water in sand'],
    [{ tab: 'record', selection: point }, 'plan', 'SP-1 on the plan'],
  ] as const)('%o is %s', (some, kind, title) => {
    expect(seen(some)).toMatchObject({ kind, title })
  })

  it('says since when a change is counted', () => {
    const board = seen({ tab: 'record', layers: ['change'], changeFromEpochMs: Date.UTC(2027, 6, 1, 12) })
    expect(board.title).toMatch(/^Change since Thu 1 Jul\w* 2027 12:00$/)
  })

  it('is taken by the server whatever tab is open, and leads back to the same view', () => {
    for (const tab of sheetTabs) {
      const board = seen({ tab, selection: point, clock: Date.UTC(2027, 5, 1) })
      expect(boardListFaults([board], 'small')).toEqual([])
      expect(readAddress(board.address)).toMatchObject({ tab, selection: point, clock: Date.UTC(2027, 5, 1) })
    }
  })
})

test('what a meeting adds to an address by itself, and what is only tried, is left out of its boards', () => {
  expect(boardAddress('site=small&meeting=7&board=3&frozen=00ff&whatif=zero&sheet=network')).toBe(
    'site=small&sheet=network',
  )
})

test('a new meeting begins with the boards of the one before, at its own cut-off', () => {
  const cutOffEpochMs = Date.UTC(2027, 7, 30, 18)
  const address = (some: Partial<AddressState>) =>
    writeAddress({ ...emptyAddress, site: 'small', clock: cutOffEpochMs, ...some })
  const previous = {
    title: 'Meeting of August',
    cutOffEpochMs,
    boards: [
      { kind: 'history', title: 'SP-1', address: address({ selection: point }), seconds: 20 },
      {
        kind: 'change',
        title: 'Change since the July meeting',
        address: address({ layers: ['change'], changeFromEpochMs: 0 }),
        seconds: 40,
      },
    ],
  } as unknown as Meeting
  const [history, change] = firstBoards('small', previous)
  expect(history).toMatchObject({ title: 'SP-1', seconds: 20 })
  expect(readAddress(history?.address ?? '')).toMatchObject({ clock: 'present', selection: point })
  expect(change?.title).toBe('Change since: Meeting of August')
  expect(readAddress(change?.address ?? '')).toMatchObject({
    clock: 'present',
    changeFromEpochMs: cutOffEpochMs,
    layers: ['change'],
  })
  const first = firstBoards('small', null)
  expect(boardListFaults(first, 'small')).toEqual([])
  expect(first.map(({ kind }) => kind)).toEqual(['plan', 'exceedances', 'network', 'minutes'])
})

test('boards of a folder that name no site begin a new meeting too', () => {
  const boards = [{ kind: 'plan', title: 'All', address: 'at=2027-08-30T18%3A00%3A00.000Z', seconds: 20 }]
  const previous = { title: 'August', cutOffEpochMs: 0, boards } as unknown as Meeting
  expect(boardListFaults(firstBoards('small', previous), 'small')).toEqual([])
})
