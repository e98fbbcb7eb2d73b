import { onCleanup, onMount, Show } from 'solid-js'
import { reportFirstColour } from '../../state/first-colour.ts'
import { boardPlace, meeting, meetingTrouble, shownBoard } from '../../state/meeting.ts'
import { readWallAddress } from '../../state/on-wall.ts'
import { isDark } from '../../state/presenting.ts'
import { siteDocument, stateDocument } from '../../state/site-document.ts'
import { leastText } from '../../state/wall-text.ts'
import { announce } from '../../ui/announce.ts'
import { sync } from '../../ui/sync.ts'
import { BoardShown } from './BoardShown.tsx'
import { keepWallAddress } from './keep-wall-address.ts'
import { leaveWall } from './leave-wall.ts'
import { listenForSwipe } from './listen-for-swipe.ts'
import { openMeeting } from './open-meeting.ts'
import { presentBoards, takeStep } from './present-boards.ts'
import { WallFoot } from './WallFoot.tsx'
import { WallHead } from './WallHead.tsx'
import './wall.css'
import './boards/boards.css'

/** A meeting on a wall: one board at a time over the whole screen, and what must be read with every one of them. */
export function WallPage() {
  let screen: HTMLDivElement | undefined
  const address = readWallAddress(location.search)
  if (address) void openMeeting(address)
  keepWallAddress()
  presentBoards()
  // The engine need not wait for a plan that the first board may not show.
  sync(stateDocument, (states) => {
    if (states) reportFirstColour()
  })
  sync(shownBoard, (board) => {
    if (board) announce(`Board ${boardPlace().board}: ${board.title}`)
  })
  onMount(() => {
    if (screen) onCleanup(listenForSwipe(screen, takeStep))
  })
  return (
    <div class="wall" data-least-text={leastText()} ref={screen}>
      <Show when={meetingTrouble() === null} fallback={<WallTrouble />}>
        <WallHead />
        <main class="wall-board" id="board" data-kind={shownBoard()?.kind}>
          <Show
            when={meeting() && siteDocument()}
            fallback={<p class="board-nothing">The meeting is being opened …</p>}
          >
            <BoardShown />
          </Show>
        </main>
        <WallFoot />
      </Show>
      <Show when={isDark()}>
        <button
          type="button"
          class="wall-dark"
          aria-label="Dark. Show the board again"
          onClick={() => takeStep('dark')}
        />
      </Show>
    </div>
  )
}

function WallTrouble() {
  return (
    <main class="wall-trouble" role="alert">
      <h1>No board can be shown</h1>
      <p>{meetingTrouble()}</p>
      <button type="button" class="primary" onClick={leaveWall}>
        To the desk
      </button>
    </main>
  )
}
