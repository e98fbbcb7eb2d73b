import { createSignal, For, Match, Show, Switch } from 'solid-js'
import { isOverdue } from '#domain/meeting/minutes-of-site.ts'
import { openedMeeting, openMeeting } from '../../state/meeting-work.ts'
import { meetings, meetingsTrouble, minutes, refreshMeetings, siteToday } from '../../state/meetings.ts'
import { hindranceTo } from '../../state/permitted.ts'
import { siteDocument } from '../../state/site-document.ts'
import { sync } from '../../ui/sync.ts'
import { ActionsPage } from './ActionsPage.tsx'
import { MeetingForm } from './MeetingForm.tsx'
import { MeetingPage } from './MeetingPage.tsx'
import { MeetingsListed } from './MeetingsListed.tsx'
import './meetings.css'

type Page = 'list' | 'actions' | 'make'

/** Meetings of the site: what each showed and wrote down, and what is still to be done. */
export function MeetingsPanel() {
  const [page, setPage] = createSignal<Page>('list')
  const site = () => siteDocument()?.facts.id
  sync(site, (known) => {
    if (known) void refreshMeetings(known)
  })
  const opened = () => meetings()?.find(({ id }) => id === openedMeeting()) ?? null
  const overdue = () => (minutes() ?? []).filter((minute) => isOverdue(minute, siteToday())).length
  const pages = (): readonly { readonly to: Page; readonly name: string }[] => [
    { to: 'list', name: 'Meetings' },
    { to: 'actions', name: overdue() === 0 ? 'Actions' : `Actions, ${overdue()} overdue` },
    ...(hindranceTo('change-records') === null ? [{ to: 'make' as const, name: 'Make a meeting' }] : []),
  ]
  const turnTo = (to: Page) => {
    openMeeting(null)
    setPage(to)
  }
  return (
    <div class="meetings-panel">
      <nav class="meetings-pages" aria-label="Meetings">
        <For each={pages()}>
          {({ to, name }) => (
            <button
              type="button"
              aria-current={opened() === null && page() === to ? 'page' : undefined}
              onClick={() => turnTo(to)}
            >
              {name}
            </button>
          )}
        </For>
      </nav>
      <Show when={meetingsTrouble()}>
        {(trouble) => (
          <div class="trouble" role="alert">
            <p>
              {meetings() === null
                ? 'Which meetings there were is not known.'
                : 'What is shown may be of before.'}{' '}
              {trouble()}
            </p>
            <div class="buttons">
              <button type="button" onClick={() => void refreshMeetings(site() ?? '')}>
                Ask again
              </button>
            </div>
          </div>
        )}
      </Show>
      <Show
        when={meetings() !== null}
        fallback={
          <Show when={meetingsTrouble() === null}>
            <p class="waiting">Fetching the meetings …</p>
          </Show>
        }
      >
        <Show when={opened()?.id} keyed fallback={<Pages page={page()} made={() => setPage('list')} />}>
          {(id) => <MeetingPage id={id} />}
        </Show>
      </Show>
    </div>
  )
}

function Pages(props: { page: Page; made: () => void }) {
  return (
    <Switch>
      <Match when={props.page === 'list'}>
        <MeetingsListed />
      </Match>
      <Match when={props.page === 'actions'}>
        <ActionsPage />
      </Match>
      <Match when={props.page === 'make'}>
        <MeetingForm made={props.made} />
      </Match>
    </Switch>
  )
}
