import { For, Index, onCleanup, Show } from 'solid-js'
import { dutiesAskedEpochMs, dutiesDocument, dutiesTrouble, refreshDuties } from '../../state/duties.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { sync } from '../../ui/sync.ts'
import { WhenAllowed } from '../access/WhenAllowed.tsx'
import { DutyCard } from './DutyCard.tsx'
import { RosterTextForm } from './RosterTextForm.tsx'
import { SuppressionSection } from './SuppressionSection.tsx'
import './duties.css'

/** Who is told of alerts now and this week, when it goes further, and what is not sent. */
export function DutiesPanel() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  sync(
    () => siteDocument()?.facts.id,
    (site) => {
      if (site !== undefined) void refreshDuties(site)
    },
  )
  // Who is on changes by the minute, without anything that happens at the server.
  const timer = setInterval(() => {
    const site = siteDocument()?.facts.id
    if (site !== undefined && !document.hidden) void refreshDuties(site)
  }, 60_000)
  onCleanup(() => clearInterval(timer))
  const troubleSentence = () => {
    const sentence = dutiesTrouble()
    const asked = dutiesAskedEpochMs()
    if (sentence === null) return null
    return asked === null || dutiesDocument() === null
      ? `Who is told is not known here: ${sentence}`
      : `${sentence} What is shown was heard ${formatInstant(asked, zone())}; who is on may have changed since.`
  }
  return (
    <div class="duties-panel">
      <Show when={troubleSentence()}>
        {(sentence) => (
          <p class="trouble" role="alert">
            {sentence()}
          </p>
        )}
      </Show>
      <Show
        when={dutiesDocument()}
        fallback={<Show when={dutiesTrouble() === null}>{<p class="waiting">Asking who is on …</p>}</Show>}
      >
        {(known) => (
          <>
            <p>
              As of {formatInstant(known().atEpochMs, zone())}, site time. Addresses are not shown here. An
              acknowledgement ends the telling; it is no resolution.
            </p>
            <Show
              when={known().duties.length > 0}
              fallback={<p>No level has an owner and no shift is written: nobody is told of anything.</p>}
            >
              {/* By place: what is opened in a card stays open when the minute changes. */}
              <Index each={known().duties}>
                {(standing) => (
                  <DutyCard
                    standing={standing()}
                    atEpochMs={known().atEpochMs}
                    coveredUntilEpochMs={known().coveredUntilEpochMs}
                    zone={zone()}
                  />
                )}
              </Index>
            </Show>
            <Show when={known().nowhere.length > 0}>
              <section class="duty-section" aria-label="Ways that lead nowhere">
                <h2>Ways that lead nowhere</h2>
                <ul class="trouble">
                  <For each={known().nowhere}>{(sentence) => <li>{sentence}</li>}</For>
                </ul>
              </section>
            </Show>
            <SuppressionSection
              suppressions={known().suppressions}
              atEpochMs={known().atEpochMs}
              zone={zone()}
            />
            <section class="duty-section" aria-label="Holidays">
              <h2>Holidays</h2>
              <Show when={known().holidays.length > 0} fallback={<p>None from today on is written.</p>}>
                <ul>
                  <For each={known().holidays}>
                    {({ date, name, zone: only }) => (
                      <li>
                        {date}: {name}
                        {only === null ? '' : ` (shifts of ${only})`}
                      </li>
                    )}
                  </For>
                </ul>
              </Show>
            </section>
            <WhenAllowed to="change-records" toTry={true}>
              <RosterTextForm site={known().site} />
            </WhenAllowed>
          </>
        )}
      </Show>
    </div>
  )
}
