import { createSignal, For, Show } from 'solid-js'
import type { NewShareLink, ShareLinkEntry } from '#contract/access-keys.ts'
import { askServer, changeServer, sendServer } from '../../state/ask-server.ts'
import { openedMeeting } from '../../state/meeting-work.ts'
import { meetings } from '../../state/meetings.ts'
import { sitePath } from '../../state/open-site.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { dayAndTime } from '../../ui/day-and-time.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { createChanged } from './create-changed.ts'
import { ModalSheet } from './ModalSheet.tsx'
import { sharedAddress, sharedWall } from './shared-address.ts'

/** Links by which others read the open site: one for what the page shows, and those that were made before. */
export function ShareSheet(props: { closed: () => void }) {
  const site = siteDocument()?.facts.id ?? ''
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const path = sitePath(site, '/share-links')
  const links = createChanged(() => askServer<{ links: readonly ShareLinkEntry[] }>(path))
  const listed = () => links.known()?.links ?? []
  const [made, setMade] = createSignal<{ href: string; expiresAtEpochMs: number } | null>(null)
  /** The meeting that is open at the desk, where its data are frozen. */
  const frozenMeeting = () =>
    meetings()?.find(({ id, frozenSet }) => id === openedMeeting() && frozenSet !== null) ?? null
  const make = (event: SubmitEvent) => {
    event.preventDefault()
    const said = new FormData(event.currentTarget as HTMLFormElement)
    const atEpochMs = said.get('clock') === 'then' ? clockEpochMs() : null
    const onWall = said.get('clock') === 'wall' ? frozenMeeting() : null
    void links.change(async () => {
      setMade(null)
      const link = await sendServer<NewShareLink>(path, { lastsHours: Number(said.get('lasts')) })
      const page = new URL(location.href)
      const address = onWall ? sharedWall(page, site, onWall.id) : sharedAddress(page, site, atEpochMs)
      setMade({ href: address + link.fragment, expiresAtEpochMs: link.expiresAtEpochMs })
    })
  }
  return (
    <ModalSheet name="Share this view" troubles={links.troubles()} closed={props.closed}>
      <form class="access-form" onSubmit={make}>
        <p>
          Whoever has the link reads this site as a viewer, without an account, until it expires. It says that
          it is yours.
        </p>
        <label>
          Shows
          <select name="clock">
            <option value="then">what is shown now, at {formatInstant(clockEpochMs() ?? 0, zone())}</option>
            <option value="newest">the same view, with the newest readings</option>
            <Show when={frozenMeeting()}>
              {(meeting) => (
                <option value="wall">the boards of “{meeting().title}”, as they were frozen</option>
              )}
            </Show>
          </select>
        </label>
        <label>
          Reads for
          <select name="lasts">
            <option value="24">1 day</option>
            <option value="168" selected>
              7 days
            </option>
            <option value="720">30 days</option>
          </select>
        </label>
        <button type="submit">Make a link</button>
        <Show when={made()}>
          {(link) => (
            <p role="status">
              It reads until {dayAndTime.format(link().expiresAtEpochMs)} and is not shown again:{' '}
              <code class="invitation-link">{link().href}</code>
            </p>
          )}
        </Show>
      </form>
      <h3>Links of this site</h3>
      <Show
        when={listed().length > 0}
        fallback={<p>{links.known() === null ? 'Asking the server …' : 'None was made yet.'}</p>}
      >
        <ul class="people-list">
          <For each={listed()}>
            {(link) => (
              <li class="person">
                <p>{linkSentence(link, Date.now())}</p>
                <Show when={link.revokedAtEpochMs === null && Date.now() < link.expiresAtEpochMs}>
                  <button
                    type="button"
                    onClick={() =>
                      void links.change(() =>
                        changeServer('DELETE', `${path}/${encodeURIComponent(link.id)}`),
                      )
                    }
                  >
                    Revoke this link
                  </button>
                </Show>
              </li>
            )}
          </For>
        </ul>
      </Show>
    </ModalSheet>
  )
}

function linkSentence(link: ShareLinkEntry, nowEpochMs: number): string {
  const at = (epochMs: number) => dayAndTime.format(epochMs)
  const used = link.lastUsedAtEpochMs === null ? 'not used yet' : `last used ${at(link.lastUsedAtEpochMs)}`
  const end =
    link.revokedAtEpochMs !== null
      ? `revoked ${at(link.revokedAtEpochMs)}`
      : `${nowEpochMs < link.expiresAtEpochMs ? 'expires' : 'expired'} ${at(link.expiresAtEpochMs)}`
  return `Of ${link.makerName}, made ${at(link.createdAtEpochMs)}, ${used}, ${end}.`
}
