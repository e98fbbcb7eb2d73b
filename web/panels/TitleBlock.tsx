import { For, Show } from 'solid-js'
import { noFilters, restoreFilters } from '../state/filters.ts'
import { isFrozen } from '../state/frozen.ts'
import { reportTrouble } from '../state/notices.ts'
import { openSite, sites } from '../state/open-site.ts'
import { askForAccess, maySignIn, signedInName } from '../state/own-account.ts'
import { isVisitor } from '../state/permitted.ts'
import { countedAtClock, statesLag, statesTrouble } from '../state/series-states.ts'
import { chooseSetting, type Setting, setting, settings } from '../state/setting.ts'
import { openSheet } from '../state/sheet.ts'
import { clockEpochMs, isAtPresent } from '../state/site-clock.ts'
import { siteDocument } from '../state/site-document.ts'
import { standingSummary } from '../state/standing-summary.ts'
import { lastKnownEpochMs } from '../state/states-age.ts'
import { chooseTheme, type ThemeChoice, themeChoice } from '../state/theme.ts'
import { stagesAtClock } from '../state/works-stage.ts'
import { formatInstant, formatOffset } from '../ui/format-instant.ts'
import { Later } from '../ui/Later.tsx'
import { levelTally, silenceSentence } from './site-sentences.ts'

/** The title block of the sheet: whose ground, which stage of the works, at what instant, how it stands. */
export function TitleBlock(props: { askForKeys: () => void; askForGrid: () => void }) {
  const facts = () => siteDocument()?.facts
  const zone = () => facts()?.timeZone ?? 'UTC'
  const isPast = () => lastKnownEpochMs() !== null
  const clockLabel = () => {
    if (isPast()) return 'Last known; not the present'
    if (isAtPresent()) return isFrozen() ? 'Cut-off of the frozen data' : 'Cut-off, the present'
    const trouble = statesTrouble()
    if (trouble) return 'Clock, in the past; states not known'
    if (statesLag()) return 'Clock, in the past; states being worked out'
    if (countedAtClock() === 'known') return 'Clock, in the past; as known then'
    const later = standingSummary()?.cameLater ?? 0
    return later === 0 ? 'Clock, in the past' : `Clock, in the past; values of ${later} came later`
  }
  const showSilent = () => {
    restoreFilters({ ...noFilters, standings: ['late'] })
    openSheet('register')
  }
  const showReached = () => {
    const names = facts()?.levelNames ?? []
    restoreFilters({ ...noFilters, standings: names.map((_, place) => `level-${place + 1}` as const) })
    openSheet('register')
  }
  return (
    <header class="title-block" classList={{ 'last-known': isPast() }}>
      <div class="title-cell title-site">
        <span class="title-label">Stillground</span>
        <Show when={sites().length > 1} fallback={<h1>{facts()?.name ?? 'Opening …'}</h1>}>
          <h1>
            <select
              aria-label="Site"
              value={facts()?.id ?? ''}
              onChange={(event) => void openSite(event.currentTarget.value)}
            >
              <For each={sites()}>{(site) => <option value={site.id}>{site.name}</option>}</For>
            </select>
          </h1>
        </Show>
      </div>
      <div class="title-cell title-stage">
        <span class="title-label">Works stage</span>
        <span class="title-text">
          {stagesAtClock()
            .map((stage) => stage.name)
            .join(' · ') || 'None under way'}
        </span>
      </div>
      <div class="title-cell title-clock" classList={{ 'some-silent': isPast() }}>
        <span class="title-label">{clockLabel()}</span>
        <Show when={clockEpochMs()} fallback={<span class="title-text">–</span>}>
          {(at) => (
            <span class="title-text">
              <time datetime={new Date(at()).toISOString()}>{formatInstant(at(), zone())}</time>{' '}
              <small>{formatOffset(at(), zone())}</small>
            </span>
          )}
        </Show>
      </div>
      <button
        type="button"
        class="title-cell title-silent"
        classList={{ 'some-silent': isPast() || (standingSummary()?.late ?? 1) > 0 }}
        onClick={showSilent}
      >
        <span class="title-label">Silence</span>
        <span class="title-text">{silenceSentence(standingSummary(), zone(), isPast())}</span>
      </button>
      <button
        type="button"
        class="title-cell title-levels"
        classList={{ 'some-silent': isPast() }}
        onClick={showReached}
      >
        <span class="title-label">Levels reached</span>
        <span class="title-text">
          {levelTally(standingSummary(), facts()?.levelNames ?? [], zone(), isPast())}
        </span>
      </button>
      <Show when={facts()?.invented}>
        <div class="title-cell title-watermark">
          <span>{facts()?.watermark ?? 'invented data'}</span>
        </div>
        <div class="print-mark" aria-hidden="true">
          <span>{facts()?.watermark ?? 'invented data'}</span>
        </div>
      </Show>
      <details class="title-cell title-settings">
        <summary aria-label="Appearance and keys">⚙</summary>
        <div class="title-menu">
          <label>
            Setting
            <select
              value={setting()}
              onChange={(event) => {
                const chosen = event.currentTarget.value as Setting
                chooseSetting(chosen)
                if (chosen === 'walk') openSheet('field')
              }}
            >
              <For each={settings}>{(one) => <option value={one}>{settingNames[one]}</option>}</For>
            </select>
          </label>
          <label>
            Sheet
            <select
              value={themeChoice()}
              onChange={(event) => chooseTheme(event.currentTarget.value as ThemeChoice)}
            >
              <option value="as-device">As the device</option>
              <option value="paper">Paper, light</option>
              <option value="room">Room, dark</option>
              <option value="sun">Sunlight, most contrast</option>
            </select>
          </label>
          <button type="button" onClick={() => props.askForGrid()}>
            Grid and ground
          </button>
          <button type="button" onClick={() => props.askForKeys()}>
            Keys and gestures (?)
          </button>
          <Show when={isVisitor()}>
            <p>
              You look at this as a visitor, who reads everything and changes nothing. The server printed a
              link for the first account at its start.
            </p>
          </Show>
          <Show when={maySignIn()}>
            <button type="button" onClick={askForAccess}>
              Sign in
            </button>
          </Show>
          <Show when={signedInName() !== null}>
            <Later
              load={() => import('./access/OwnAccount.tsx').then(({ OwnAccount }) => OwnAccount)}
              when={true}
              waiting="…"
              failed={(cause) => reportTrouble({ cause })}
            />
          </Show>
        </div>
      </details>
    </header>
  )
}

const settingNames: Readonly<Record<Setting, string>> = {
  desk: 'Desk',
  wall: 'Wall, large',
  walk: 'Walk, by thumb',
}
