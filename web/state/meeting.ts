import { createMemo, createRoot, createSignal } from 'solid-js'
import type { Board, Meeting } from '#domain/meeting/meeting.ts'
import {
  type BoardPlace,
  lastPage,
  nextPlace,
  placeBefore,
  placeWithin,
} from '../derived/meeting/board-sequence.ts'

const [meeting, setMeeting] = createSignal<Meeting | null>(null)
const [previousMeeting, setPreviousMeeting] = createSignal<Meeting | null>(null)
const [meetingTrouble, setMeetingTrouble] = createSignal<string | null>(null)
const [wanted, setWanted] = createSignal<BoardPlace>({ board: 1, page: 1 })
const [pages, setPages] = createSignal(1)

export {
  /** The meeting on the wall; null until it has arrived. */
  meeting,
  /** Why it cannot be shown; null: nothing stands in the way. */
  meetingTrouble,
  /** How many pages the shown board has. */
  pages as pagesOfBoard,
  /** The meeting that changes are counted from; null: it is the first, or not known yet. */
  previousMeeting,
}

export const boardsOfMeeting = (): readonly Board[] => meeting()?.boards ?? []

/** Where it stands, among the boards and pages that there are. */
export const boardPlace = createRoot(() =>
  createMemo(
    (): BoardPlace => {
      const { board, page } = placeWithin(wanted(), Math.max(1, boardsOfMeeting().length))
      return { board, page: Math.min(page, pages()) }
    },
    undefined,
    { equals: (one, other) => one.board === other.board && one.page === other.page },
  ),
)

/** The board that is shown; null: the meeting has none, or has not arrived yet. */
export const shownBoard = createRoot(() =>
  createMemo((): Board | null => boardsOfMeeting()[boardPlace().board - 1] ?? null),
)

export function showMeeting(shown: Meeting, before: Meeting | null): void {
  setPreviousMeeting(before)
  setMeeting(shown)
}

export function reportMeetingTrouble(sentence: string): void {
  setMeetingTrouble(sentence)
}

/** Goes to a board and page; `pages` of another board are not known until it says so. */
export function goToPlace(place: BoardPlace): void {
  const now = boardPlace()
  if (place.board !== now.board) setPages(place.page > 1 && place.page !== lastPage ? place.page : 1)
  setWanted(place)
}

/** Takes how many pages the shown board turned out to have. */
export function tellPages(count: number): void {
  setPages(Math.max(1, count))
}

/** Goes one page or board on; from the last to the first only where they follow one another by themselves. */
export function stepOn(around = false): void {
  goToPlace(nextPlace(boardPlace(), { boards: boardsOfMeeting().length, pages: pages(), around }))
}

export function stepBack(): void {
  goToPlace(placeBefore(boardPlace()))
}

export const goToFirstBoard = (): void => goToPlace({ board: 1, page: 1 })
export const goToLastBoard = (): void => goToPlace({ board: Math.max(1, boardsOfMeeting().length), page: 1 })
