import { For, Show } from 'solid-js'
import { boardSeconds, longestTitle } from '#domain/meeting/board-faults.ts'
import { type Board, boardKinds } from '#domain/meeting/meeting.ts'
import { boardKindNames } from './board-kind-names.ts'

/** A board to rename, to move in the order, to show for longer or shorter, or to take away. */
export function BoardRow(props: {
  board: Board
  /** In the order, from 0. */
  place: number
  of: number
  idOfMover: (step: -1 | 1) => string
  change: (some: Partial<Board>) => void
  move: (step: -1 | 1) => void
  remove: () => void
  look: () => void
}) {
  const name = () => `board ${props.place + 1}, ${props.board.title}`
  return (
    <li>
      <span class="board-number">{props.place + 1}</span>
      <input
        class="board-title"
        type="text"
        required
        maxlength={longestTitle}
        aria-label={`Title of board ${props.place + 1}`}
        value={props.board.title}
        onInput={(event) => props.change({ title: event.currentTarget.value })}
      />
      <div class="board-settings">
        <select
          aria-label={`What ${name()} shows`}
          value={props.board.kind}
          onInput={(event) =>
            props.change({
              kind: boardKinds.find((kind) => kind === event.currentTarget.value) ?? props.board.kind,
            })
          }
        >
          <For each={boardKinds}>
            {(kind) => (
              <option value={kind} selected={kind === props.board.kind}>
                {boardKindNames[kind]}
              </option>
            )}
          </For>
        </select>
        <label class="board-seconds">
          <input
            type="number"
            required
            min={boardSeconds.least}
            max={boardSeconds.most}
            step="1"
            aria-label={`Seconds that ${name()} stands`}
            value={props.board.seconds}
            onInput={(event) => props.change({ seconds: event.currentTarget.valueAsNumber })}
          />{' '}
          s
        </label>
        <span class="board-buttons">
          <button
            type="button"
            id={props.idOfMover(-1)}
            aria-label={`Move ${name()} up`}
            disabled={props.place === 0}
            onClick={() => props.move(-1)}
          >
            ↑
          </button>
          <button
            type="button"
            id={props.idOfMover(1)}
            aria-label={`Move ${name()} down`}
            disabled={props.place === props.of - 1}
            onClick={() => props.move(1)}
          >
            ↓
          </button>
          <button type="button" aria-label={`Look at ${name()}`} onClick={() => props.look()}>
            Look
          </button>
          <Show when={props.of > 1}>
            <button type="button" aria-label={`Remove ${name()}`} onClick={() => props.remove()}>
              Remove
            </button>
          </Show>
        </span>
      </div>
    </li>
  )
}
