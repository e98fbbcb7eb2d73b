import { beforeEach, describe, expect, it } from 'vitest'
import type { Meeting } from '#domain/meeting/meeting.ts'
import {
  boardPlace,
  goToFirstBoard,
  goToLastBoard,
  goToPlace,
  pagesOfBoard,
  showMeeting,
  shownBoard,
  stepBack,
  stepOn,
  tellPages,
} from '../../../web/state/meeting.ts'
import { readWallAddress, writeWallAddress } from '../../../web/state/on-wall.ts'
import { passTime, remainingMs, startTime } from '../../../web/state/presenting.ts'

const meeting: Meeting = {
  id: 7,
  site: 'small',
  title: 'Progress meeting',
  heldAtEpochMs: 0,
  frozenSet: '0123456789abcdef',
  cutOffEpochMs: 0,
  previous: null,
  boards: (['plan', 'exceedances', 'history'] as const).map((kind) => ({
    kind,
    title: kind,
    address: '',
    seconds: 20,
  })),
  version: 1,
  author: 'A. Tester',
  atEpochMs: 0,
}

beforeEach(() => {
  showMeeting(meeting, null)
  goToPlace({ board: 1, page: 1 })
  tellPages(1)
})

describe('a meeting on the wall', () => {
  it('goes through boards and the pages that a board says it has', () => {
    stepOn()
    expect(shownBoard()?.kind).toBe('exceedances')
    tellPages(2)
    stepOn()
    expect(boardPlace()).toEqual({ board: 2, page: 2 })
    stepOn()
    expect(boardPlace()).toEqual({ board: 3, page: 1 })
    expect(pagesOfBoard()).toBe(1)
    stepOn()
    expect(boardPlace()).toEqual({ board: 3, page: 1 })
    stepOn(true)
    expect(boardPlace()).toEqual({ board: 1, page: 1 })
  })

  it('comes back to the last page of a board, once that says how many it has', () => {
    goToLastBoard()
    stepBack()
    expect(boardPlace()).toEqual({ board: 2, page: 1 })
    tellPages(3)
    expect(boardPlace()).toEqual({ board: 2, page: 3 })
    goToFirstBoard()
    expect(boardPlace()).toEqual({ board: 1, page: 1 })
  })

  it('keeps the page of an address until the board says that it has fewer', () => {
    goToPlace({ board: 2, page: 3 })
    expect(boardPlace()).toEqual({ board: 2, page: 3 })
    tellPages(2)
    expect(boardPlace()).toEqual({ board: 2, page: 2 })
  })

  it('shows nothing of a board that is not there', () => {
    goToPlace({ board: 9, page: 1 })
    expect(shownBoard()?.kind).toBe('history')
    showMeeting({ ...meeting, boards: [] }, null)
    expect(shownBoard()).toBeNull()
  })

  it('counts the time of a board down to nothing', () => {
    startTime(500)
    expect(passTime(250)).toBe(false)
    expect(remainingMs()).toBe(250)
    expect(passTime(250)).toBe(true)
    expect(passTime(250)).toBe(true)
  })
})

describe('address of a board', () => {
  it('reads back what was written', () => {
    for (const page of [1, 2]) {
      const place = { site: 'skarrow-quay', meeting: 7, board: 3, page }
      expect(readWallAddress(writeWallAddress(place))).toEqual(place)
    }
    expect(writeWallAddress({ site: 'a', meeting: 7, board: 3, page: 1 })).toBe('site=a&meeting=7&board=3')
  })

  it('is none without a meeting, and begins with the first board', () => {
    expect(readWallAddress('?site=a&board=3')).toBeNull()
    expect(readWallAddress('?meeting=0')).toBeNull()
    expect(readWallAddress('?meeting=7&board=x')).toEqual({ site: null, meeting: 7, board: 1, page: 1 })
  })
})
