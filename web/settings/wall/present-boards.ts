import { onCleanup } from 'solid-js'
import {
  boardPlace,
  goToFirstBoard,
  goToLastBoard,
  previousMeeting,
  shownBoard,
  stepBack,
  stepOn,
} from '../../state/meeting.ts'
import { pause, play, playing } from '../../state/playback.ts'
import { boardsFollow, darken, isDark, letBoardsFollow, passTime, startTime } from '../../state/presenting.ts'
import { siteDocument } from '../../state/site-document.ts'
import { sync } from '../../ui/sync.ts'
import { leaveWall } from './leave-wall.ts'
import { belongsToControl, type PresenterStep, presenterStep } from './presenter-keys.ts'
import { showBoard } from './show-board.ts'

const tickMs = 250

/** Lets boards follow one another: by themselves, and by what a person presses. */
export function presentBoards(): void {
  sync(
    () => ({ board: shownBoard(), before: previousMeeting() }),
    ({ board, before }) => {
      if (board) showBoard(board, before)
    },
  )
  sync(
    () => ({ place: boardPlace(), seconds: shownBoard()?.seconds ?? 0 }),
    ({ seconds }) => startTime(seconds * 1000),
  )
  const timer = setInterval(() => {
    // A running clock is looked at to its end, and a board is not over before it could be seen.
    const stands =
      !boardsFollow() || isDark() || playing() || !shownBoard() || siteDocument() === null || document.hidden
    if (!stands && passTime(tickMs)) {
      const before = boardPlace()
      stepOn(true)
      // Of one board without pages there is no next: its time begins again.
      if (boardPlace() === before) startTime((shownBoard()?.seconds ?? 0) * 1000)
    }
  }, tickMs)
  const press = (event: KeyboardEvent) => {
    if (belongsToControl(event.key, event.target)) return
    const step = presenterStep(event)
    if (step === null) return
    event.preventDefault()
    // The map has keys of its own, which a board does not use.
    event.stopPropagation()
    takeStep(step)
  }
  addEventListener('keydown', press, true)
  onCleanup(() => {
    clearInterval(timer)
    removeEventListener('keydown', press, true)
  })
}

/** What a key, a button or a sweep asks for. Whoever steps by hand leads: boards then wait. */
export function takeStep(step: PresenterStep): void {
  if (isDark() && step !== 'full') {
    darken(false)
    return
  }
  const acts: Readonly<Record<PresenterStep, () => void>> = {
    on: () => byHand(stepOn),
    back: () => byHand(stepBack),
    first: () => byHand(goToFirstBoard),
    last: () => byHand(goToLastBoard),
    dark: () => darken(true),
    follow: () => letBoardsFollow(!boardsFollow()),
    clock: () => (playing() ? pause() : play()),
    full: toggleFullScreen,
    leave: leaveWall,
  }
  acts[step]()
}

function byHand(go: () => void): void {
  letBoardsFollow(false)
  go()
}

function toggleFullScreen(): void {
  // Refused where a frame or a device forbids it; the board then stays in its window.
  if (document.fullscreenElement) document.exitFullscreen().catch(() => undefined)
  else document.documentElement.requestFullscreen?.().catch(() => undefined)
}
