import { createSignal, For, Show } from 'solid-js'
import { longestTitle } from '#domain/meeting/board-faults.ts'
import { type Board, boardKinds, type Meeting } from '#domain/meeting/meeting.ts'
import { currentAddress } from '../../state/address-bar.ts'
import { changeServer } from '../../state/ask-server.ts'
import { boardWorkOf, gatherFor, gatheringFor, openMeeting, workOnBoards } from '../../state/meeting-work.ts'
import { meetings, takeMeeting } from '../../state/meetings.ts'
import { sitePath } from '../../state/open-site.ts'
import { signedInName } from '../../state/own-account.ts'
import { openSheet } from '../../state/sheet.ts'
import { siteDocument } from '../../state/site-document.ts'
import { announce } from '../../ui/announce.ts'
import { AuthorField } from '../signed/AuthorField.tsx'
import { createSignedForm } from '../signed/create-signed-form.ts'
import { FormField } from '../signed/FormField.tsx'
import { LineField } from '../signed/LineField.tsx'
import { latestOf } from './BoardsOf.tsx'
import { boardKindNames } from './board-kind-names.ts'
import { guessBoard } from './guess-board.ts'
import './meetings.css'

/** Stands above the tabs while views are gathered for a meeting: puts whatever is seen on one of its boards. */
export function GatheringStrip() {
  const meeting = () => meetings()?.find(({ id }) => id === gatheringFor()) ?? null
  return <Show when={meeting()}>{(known) => <Strip meeting={known()} />}</Show>
}

function Strip(props: { meeting: Meeting }) {
  const [board, setBoard] = createSignal<Board | null>(null)
  const count = () => (boardWorkOf(props.meeting.id)?.boards ?? props.meeting.boards).length
  const see = () => setBoard(guessBoard(currentAddress(), { zone: siteDocument()?.facts.timeZone ?? 'UTC' }))
  return (
    <section class="gathering" aria-label="Gathering views for a meeting">
      <div class="gathering-line">
        <button
          type="button"
          class="gathering-name"
          onClick={() => {
            openMeeting(props.meeting.id)
            openSheet('meetings')
          }}
        >
          {props.meeting.title}, {count()} boards
        </button>
        <button type="button" class="primary" onClick={see}>
          Put what I see on a board
        </button>
        <button type="button" onClick={() => gatherFor(null)}>
          Finish
        </button>
      </div>
      <Show when={board()} keyed>
        {(seen) => <BoardForm meeting={props.meeting} seen={seen} leave={() => setBoard(null)} />}
      </Show>
    </section>
  )
}

function BoardForm(props: { meeting: Meeting; seen: Board; leave: () => void }) {
  const form = createSignedForm<'title' | 'kind'>((column) =>
    column.endsWith('title') ? 'title' : column.endsWith('kind') ? 'kind' : null,
  )
  const [title, setTitle] = createSignal(props.seen.title)
  const [kind, setKind] = createSignal(props.seen.kind)
  const put = async (author: string) => {
    const { id, site, version, boards } = props.meeting
    const board: Board = { ...props.seen, title: title(), kind: kind() }
    const work = boardWorkOf(id)
    if (work) {
      workOnBoards(id, { ...work, boards: [...work.boards, board] })
      announce(`${board.title} is added to the boards that are not saved yet`)
      return props.leave()
    }
    try {
      const path = sitePath(site, `/meetings/${id}/boards`)
      takeMeeting(await changeServer<Meeting>('PUT', path, { version, boards: [...boards, board], author }))
      announce(`${board.title} is board ${boards.length + 1}`)
      props.leave()
    } catch (cause) {
      // It is added at the end: whoever saved meanwhile loses nothing, and the next press adds it to theirs.
      const latest = latestOf(cause)
      if (latest) takeMeeting(latest)
      throw cause
    }
  }
  return (
    <form class="verdict-form" onSubmit={form.submits(put)} aria-label="Board of what is seen">
      <LineField
        form={form}
        field="title"
        label="Title"
        mostCharacters={longestTitle}
        first
        value={title()}
        write={setTitle}
      />
      <FormField form={form} field="kind" label="Shows">
        <select
          id={form.idOf('kind')}
          {...form.faults.troubled('kind')}
          value={kind()}
          onInput={(event) =>
            setKind(boardKinds.find((one) => one === event.currentTarget.value) ?? props.seen.kind)
          }
        >
          <For each={boardKinds}>
            {(one) => (
              <option value={one} selected={one === kind()}>
                {boardKindNames[one]}
              </option>
            )}
          </For>
        </select>
      </FormField>
      <Show when={signedInName() === null}>
        <AuthorField form={form} />
      </Show>
      {form.faults.summary()}
      <div class="buttons">
        <button type="submit" class="primary" disabled={form.sending()}>
          Put it on
        </button>
        <button type="button" onClick={() => props.leave()}>
          Leave it
        </button>
      </div>
    </form>
  )
}
