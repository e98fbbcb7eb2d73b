import { createSignal, For, Index, Show } from 'solid-js'
import type { BoardsConflict } from '#contract/meetings.ts'
import { mostBoards } from '#domain/meeting/board-faults.ts'
import type { Board, Meeting } from '#domain/meeting/meeting.ts'
import { readAddress } from '../../state/address.ts'
import { restoreAddress } from '../../state/address-bar.ts'
import { changeServer, ServerRefused } from '../../state/ask-server.ts'
import {
  boardWorkOf,
  gatherFor,
  gatheringFor,
  openedMeeting,
  workOnBoards,
} from '../../state/meeting-work.ts'
import { takeMeeting } from '../../state/meetings.ts'
import { sitePath } from '../../state/open-site.ts'
import { hindranceTo } from '../../state/permitted.ts'
import { announce } from '../../ui/announce.ts'
import { AuthorField } from '../signed/AuthorField.tsx'
import { createSignedForm } from '../signed/create-signed-form.ts'
import { BoardRow } from './BoardRow.tsx'
import { boardKindNames } from './board-kind-names.ts'

/** The boards of a meeting in their order; whoever may change records puts them together anew. */
export function BoardsOf(props: { meeting: Meeting }) {
  const may = () => hindranceTo('change-records') === null
  const gathers = () => gatheringFor() === props.meeting.id
  return (
    <section class="meeting-part" aria-label="Boards">
      <Show when={may()} fallback={<BoardsRead boards={props.meeting.boards} />}>
        <BoardsChanged meeting={props.meeting} />
        <p>
          <Show
            when={gathers()}
            fallback="To add boards, gather views: a strip stays above the tabs, and from it whatever you look at is put on a board."
          >
            The strip above the tabs puts whatever you look at on a board of this meeting.
          </Show>
        </p>
        <div class="buttons">
          <button
            type="button"
            aria-pressed={gathers()}
            onClick={() => gatherFor(gathers() ? null : props.meeting.id)}
          >
            Gather views
          </button>
        </div>
      </Show>
    </section>
  )
}

function BoardsRead(props: { boards: readonly Board[] }) {
  return (
    <ol class="meeting-boards">
      <For each={props.boards}>
        {(board, place) => (
          <li>
            <span class="board-number">{place() + 1}</span>
            <span class="board-said">
              {board.title}
              <small>
                {boardKindNames[board.kind]}, {board.seconds} s
              </small>
            </span>
            <button type="button" aria-label={`Look at ${board.title}`} onClick={() => look(board)}>
              Look
            </button>
          </li>
        )}
      </For>
    </ol>
  )
}

/** The meeting stays open: whoever comes back to its tab goes on where they were. */
const look = (board: Board) =>
  restoreAddress({ ...readAddress(board.address), openedMeeting: openedMeeting() })

function BoardsChanged(props: { meeting: Meeting }) {
  const form = createSignedForm<'boards'>((column) => (column.startsWith('boards') ? 'boards' : null))
  const [theirs, setTheirs] = createSignal<Meeting | null>(null)
  const work = () => boardWorkOf(props.meeting.id)
  const boards = () => work()?.boards ?? props.meeting.boards
  const change = (to: readonly Board[]) =>
    workOnBoards(props.meeting.id, { version: work()?.version ?? props.meeting.version, boards: to })
  const leave = () => {
    workOnBoards(props.meeting.id, null)
    setTheirs(null)
    form.faults.clear()
  }
  const move = (place: number, step: -1 | 1) => {
    const [one, other] = [boards()[place], boards()[place + step]]
    if (!one || !other) return
    change(boards().map((board, at) => (at === place ? other : at === place + step ? one : board)))
    announce(`${one.title} is board ${place + step + 1} of ${boards().length}`)
    // The rows stay and their words change: the focus follows the board that was moved.
    const wanted = document.getElementById(moverId(props.meeting.id, place + step, step))
    const opposite = document.getElementById(moverId(props.meeting.id, place + step, step === 1 ? -1 : 1))
    const target = wanted instanceof HTMLButtonElement && !wanted.disabled ? wanted : opposite
    target?.focus()
  }
  const save = async (author: string) => {
    const unsaved = work()
    if (!unsaved) return
    try {
      const path = sitePath(props.meeting.site, `/meetings/${props.meeting.id}/boards`)
      takeMeeting(await changeServer<Meeting>('PUT', path, { ...unsaved, author }))
      leave()
      announce('The boards are saved')
    } catch (cause) {
      const latest = latestOf(cause)
      if (latest) setTheirs(latest)
      throw cause
    }
  }
  const saveOver = (latest: Meeting) => {
    workOnBoards(props.meeting.id, { version: latest.version, boards: boards() })
    setTheirs(null)
    void form.send(save)
  }
  const takeTheirs = (latest: Meeting) => {
    takeMeeting(latest)
    leave()
  }
  return (
    <form class="meeting-boards-form" onSubmit={form.submits(save)} aria-label="Boards of the meeting">
      <ol class="meeting-boards">
        <Index each={boards()}>
          {(board, place) => (
            <BoardRow
              board={board()}
              place={place}
              of={boards().length}
              idOfMover={(step) => moverId(props.meeting.id, place, step)}
              change={(some) => change(boards().map((one, at) => (at === place ? { ...one, ...some } : one)))}
              move={(step) => move(place, step)}
              remove={() => change(boards().filter((_, at) => at !== place))}
              look={() => look(board())}
            />
          )}
        </Index>
      </ol>
      <div id={form.idOf('boards')} tabindex="-1">
        {form.faults.textAt('boards')}
      </div>
      <Show when={theirs()}>
        {(latest) => (
          <div class="board-conflict">
            <p>
              As {latest().title} stands now, version {latest().version}:
            </p>
            <BoardsRead boards={latest().boards} />
            <div class="buttons">
              <button type="button" onClick={() => saveOver(latest())}>
                Save mine over it
              </button>
              <button type="button" onClick={() => takeTheirs(latest())}>
                Take these, leave mine
              </button>
            </div>
          </div>
        )}
      </Show>
      <Show when={work()}>
        <p class="waiting" role="status">
          {boards().length} of at most {mostBoards} boards, changed and not saved.
        </p>
        <AuthorField form={form} />
        {form.faults.summary()}
        <div class="buttons">
          <button type="submit" class="primary" disabled={form.sending()}>
            Save the boards
          </button>
          <button type="button" onClick={leave}>
            Leave the changes
          </button>
        </div>
      </Show>
    </form>
  )
}

const moverId = (meeting: number, place: number, step: -1 | 1) =>
  `board-${meeting}-${place}-${step === -1 ? 'up' : 'down'}`

/** The meeting as it stands, where the server refused boards for what was saved meanwhile. */
export const latestOf = (cause: unknown): Meeting | null =>
  cause instanceof ServerRefused && cause.problem.status === 409
    ? ((cause.problem as Partial<BoardsConflict>).latest ?? null)
    : null
