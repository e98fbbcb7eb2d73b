import { Show } from 'solid-js'
import { boardPlace, boardsOfMeeting, pagesOfBoard, shownBoard } from '../../state/meeting.ts'
import { playing } from '../../state/playback.ts'
import { boardsFollow, remainingMs } from '../../state/presenting.ts'
import { chooseRoom, room } from '../../state/theme.ts'
import { takeStep } from './present-boards.ts'

/** What the board is called, where it stands among the others, and what leads from one to the next. */
export function WallHead() {
  const seconds = () => Math.ceil(remainingMs() / 1000)
  const followName = () =>
    boardsFollow() ? `Pause: the next board comes in ${seconds()} s (P)` : 'Let boards follow one another (P)'
  return (
    <header class="wall-head">
      <h1>{shownBoard()?.title ?? ''}</h1>
      <nav class="wall-controls" aria-label="Boards">
        <button
          type="button"
          aria-label="Board before (page up)"
          title="Board before"
          onClick={() => takeStep('back')}
        >
          <Sign d="M15 4L7 12l8 8" />
        </button>
        <p class="wall-count">
          <span class="visually-hidden">Board </span>
          {boardPlace().board}
          <span aria-hidden="true"> / </span>
          <span class="visually-hidden"> of </span>
          {Math.max(1, boardsOfMeeting().length)}
          <Show when={pagesOfBoard() > 1}>
            <span class="wall-pages">
              {' '}
              page {boardPlace().page} / {pagesOfBoard()}
            </span>
          </Show>
        </p>
        <button
          type="button"
          aria-label="Next board (page down)"
          title="Next board"
          onClick={() => takeStep('on')}
        >
          <Sign d="M9 4l8 8-8 8" />
        </button>
        <button
          type="button"
          class="wall-follow"
          aria-label={followName()}
          title={followName()}
          aria-pressed={boardsFollow()}
          onClick={() => takeStep('follow')}
        >
          <Show when={boardsFollow()} fallback={<Sign solid d="M7 4l13 8-13 8z" />}>
            <Sign solid d="M6 4h4v16H6zM14 4h4v16h-4z" />
          </Show>
          <span aria-hidden="true">
            {boardsFollow() ? (playing() ? 'held' : `${seconds()} s`) : 'by hand'}
          </span>
        </button>
        <button
          type="button"
          aria-label={room() === 'dark' ? 'For a light room' : 'For a dark room'}
          title={room() === 'dark' ? 'For a light room' : 'For a dark room'}
          onClick={() => chooseRoom(room() === 'dark' ? 'light' : 'dark')}
        >
          <Sign d="M12 3a9 9 0 1 0 0 18z" solid circle />
        </button>
        <button
          type="button"
          aria-label="Dark screen (B)"
          title="Dark screen"
          onClick={() => takeStep('dark')}
        >
          <Sign solid d="M3 5h18v12H3zM9 19h6v2H9z" />
        </button>
        <button
          type="button"
          aria-label="Whole screen (F)"
          title="Whole screen"
          onClick={() => takeStep('full')}
        >
          <Sign d="M4 9V4h5M15 4h5v5M20 15v5h-5M9 20H4v-5" />
        </button>
        <button
          type="button"
          aria-label="Leave the wall (Escape)"
          title="Leave the wall"
          onClick={() => takeStep('leave')}
        >
          <Sign d="M5 5l14 14M19 5L5 19" />
        </button>
      </nav>
    </header>
  )
}

function Sign(props: { d: string; solid?: boolean; circle?: boolean }) {
  return (
    <svg class="wall-sign" viewBox="0 0 24 24" aria-hidden="true">
      <Show when={props.circle}>
        <circle cx="12" cy="12" r="9" fill="none" stroke="currentColor" stroke-width="2" />
      </Show>
      <path
        d={props.d}
        fill={props.solid ? 'currentColor' : 'none'}
        stroke={props.solid ? 'none' : 'currentColor'}
        stroke-width="2.4"
        stroke-linecap="round"
        stroke-linejoin="round"
      />
    </svg>
  )
}
