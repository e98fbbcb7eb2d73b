import { createMemo, For, Show } from 'solid-js'
import { offeredCorrections } from '#domain/corrections/offered-corrections.ts'
import { type SandboxKind, sandboxKindNames, sandboxKinds } from '#domain/what-if/sandbox-change.ts'
import { sandboxDrafts } from '#domain/what-if/sandbox-drafts.ts'
import { mostChanges } from '#domain/what-if/sandbox-text.ts'
import { isMeant } from '#domain/what-if/series-pattern.ts'
import { whatIfDifferenceFigure } from '../../derived/figures/what-if-figure.ts'
import { writeAddress } from '../../state/address.ts'
import { currentAddress } from '../../state/address-bar.ts'
import { isFrozen } from '../../state/frozen.ts'
import { chooseReviewedSeries, reviewedSeries } from '../../state/reviewed-series.ts'
import { selectedSeries } from '../../state/selection.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument, siteLookup } from '../../state/site-document.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { measureNames } from '../../ui/kind-names.ts'
import { sync } from '../../ui/sync.ts'
import { asMeasured } from '../as-measured.ts'
import { CorrectionList } from '../corrections/CorrectionList.tsx'
import { createCorrections } from '../corrections/create-corrections.ts'
import { OfferCorrection } from '../corrections/OfferCorrection.tsx'
import { TitledFigure } from '../ground/AnalysisResult.tsx'
import '../ground/ground.css'
import { ChangeCard } from './ChangeCard.tsx'
import type { FieldChoices } from './change-fields.ts'
import { createPublishedCheck } from './create-published-check.ts'
import { createSandbox } from './create-sandbox.ts'
import { surfaceOf } from './create-surfaces.ts'
import { createTargets } from './create-targets.ts'
import { DraftList } from './DraftList.tsx'
import { LevelFates } from './LevelFates.tsx'
import { markDrawn } from './mark-drawn.ts'
import { newChange } from './new-change.ts'
import { PlanSymbols } from './PlanSymbols.tsx'
import { SandboxHistory } from './SandboxHistory.tsx'
import { SandboxSurface } from './SandboxSurface.tsx'
import { createTriedChanges, daysToLookBack } from './tried-changes.ts'
import { differenceSentences } from './what-if-sentences.ts'
import './what-if.css'

/** A sandbox beside the official record: what another calibration, zero, barometer, lead or clock would make of the readings. */
export function WhatIfPanel() {
  const tried = createTriedChanges()
  // What is reviewed is tried: from the review one comes here with its series.
  const subject = reviewedSeries
  const sandbox = createSandbox(subject, tried.days, tried.changes)
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const check = createPublishedCheck(
    subject,
    () => sandbox.official()?.get(subject()?.id ?? '') ?? null,
    sandbox.stretch,
  )
  const targets = createTargets(subject, () => sandbox.raw.known()?.recipe ?? null)
  const choices = (series: string): FieldChoices => ({
    recipe: sandbox.raw.known()?.recipe ?? { links: [], bundles: [], channels: [] },
    targets: targets.changed(),
    partners: targets.partners(),
    barometers: (siteDocument()?.series ?? []).filter(({ measure }) => measure === 'barometric-pressure'),
    unit:
      siteLookup().seriesById.get(series)?.unit ??
      [...siteLookup().seriesById.values()].find(({ id }) => isMeant(series, id))?.unit ??
      '',
  })
  const add = (kind: SandboxKind) => {
    const [recipe, over, on] = [sandbox.raw.known()?.recipe, sandbox.stretch(), subject()]
    const series = targets.changed()[0]
    if (!recipe || !over || !on || series === undefined) return
    tried.tryChanges([
      ...tried.changes(),
      newChange(kind, {
        recipe,
        series,
        official: sandbox.official()?.get(series),
        fromEpochMs: over.fromEpochMs,
      }),
    ])
  }
  const sentences = createMemo(() => {
    const [found, on] = [sandbox.compared(), subject()]
    return found && on ? differenceSentences(found.comparison, on, zone()) : []
  })
  const corrections = createCorrections()
  const offered = createMemo(() => {
    const [known, run] = [sandbox.raw.known(), sandbox.run()]
    return known && run
      ? offeredCorrections(known.recipe, run.recipe, tried.changes())
      : { changes: [], hindrances: [] }
  })
  /** A clock that runs on would show another time to whoever opens it later. */
  const address = () =>
    `?${writeAddress({ ...currentAddress(), clock: clockEpochMs() ?? 'present', tab: 'what-if', frozen: null })}`
  const drafts = createMemo(() => {
    const [known, run] = [sandbox.raw.known(), sandbox.run()]
    return known && run ? sandboxDrafts(known.recipe, run.recipe, tried.changes()) : []
  })
  sync(
    () => sandbox.compared(),
    (found) => {
      if (found) markDrawn('what-if-drawn')
    },
  )
  return (
    <div class="what-if">
      <p class="what-if-banner" role="note">
        <strong>Sandbox: nothing official changes.</strong> What is tried stands in the address of this page
        and nowhere else.
      </p>
      <For each={asMeasured()}>{(sentence) => <p class="trouble">{sentence}</p>}</For>
      <Show
        when={subject()}
        fallback={<p class="waiting">Select an instrument or a point of which something is to be tried.</p>}
      >
        {(on) => (
          <>
            <div class="what-if-asked">
              <label>
                Look at
                <select value={on().id} onInput={(event) => chooseReviewedSeries(event.currentTarget.value)}>
                  <For each={selectedSeries()}>
                    {(one) => (
                      <option value={one.id} selected={one.id === on().id}>
                        {one.point}, {measureNames[one.measure].toLowerCase()}
                      </option>
                    )}
                  </For>
                </select>
              </label>
              <fieldset class="chips" aria-label="Days before the clock">
                <For each={daysToLookBack}>
                  {(one) => (
                    <button
                      type="button"
                      aria-pressed={tried.days() === one}
                      onClick={() => tried.lookBack(one)}
                    >
                      {one} days
                    </button>
                  )}
                </For>
              </fieldset>
            </div>
            <Show when={sandbox.raw.trouble()}>{(sentence) => <p class="trouble">{sentence()}</p>}</Show>
            <Show when={sandbox.raw.waiting() && !sandbox.raw.known()}>
              <p class="waiting">Asking for raw readings …</p>
            </Show>
            <Show when={sandbox.raw.known() && targets.changed().length === 0}>
              <p class="trouble">
                No calibrated sensor that this series is made of is read by a logger in this time: nothing can
                be tried on it here.
              </p>
            </Show>
            <Show when={sandbox.compared()}>
              {(found) => (
                <>
                  <SandboxHistory
                    series={on()}
                    official={found().official}
                    sandbox={found().sandbox}
                    fromEpochMs={sandbox.stretch()?.fromEpochMs ?? 0}
                    untilEpochMs={sandbox.stretch()?.asOfEpochMs ?? 0}
                    remarks={check.remarks()}
                    waiting={sandbox.raw.waiting()}
                  />
                  <PlanSymbols
                    series={on()}
                    official={found().official}
                    sandbox={found().sandbox}
                    asOfEpochMs={sandbox.stretch()?.asOfEpochMs ?? 0}
                  />
                </>
              )}
            </Show>
            <section aria-label="What is tried" class="what-if-changes">
              <For each={tried.changes().map((_, number) => number)}>
                {(number) => (
                  <Show when={tried.changes()[number]}>
                    {(change) => (
                      <ChangeCard
                        number={number}
                        change={change()}
                        choices={choices(change().series)}
                        faults={sandbox.run()?.faults ?? []}
                        cautions={sandbox.run()?.cautions ?? []}
                        zone={zone()}
                        write={(fresh) =>
                          tried.tryChanges(tried.changes().map((one, at) => (at === number ? fresh : one)))
                        }
                        remove={() => tried.tryChanges(tried.changes().filter((_, at) => at !== number))}
                      />
                    )}
                  </Show>
                )}
              </For>
              <Show when={tried.changes().length > 1}>
                <div class="buttons">
                  <button type="button" onClick={() => tried.tryChanges([])}>
                    Take out all {tried.changes().length} changes
                  </button>
                </div>
              </Show>
              <Show when={targets.changed().length > 0 && tried.changes().length < mostChanges}>
                <fieldset class="chips" aria-label="Try another">
                  <For each={sandboxKinds}>
                    {(kind) => (
                      <button type="button" onClick={() => add(kind)}>
                        + {sandboxKindNames[kind]}
                      </button>
                    )}
                  </For>
                </fieldset>
              </Show>
            </section>
            <Show when={sandbox.compared()}>
              {(found) => (
                <>
                  <div class="what-if-said" role="status">
                    <For each={sentences()}>{(sentence) => <p>{sentence}</p>}</For>
                    <Show when={(sandbox.run()?.faults.length ?? 0) > 0}>
                      <p class="trouble">
                        What could not be done is left out, and told beside it: {sandbox.run()?.faults.length}{' '}
                        of {tried.changes().length} changes.
                      </p>
                    </Show>
                  </div>
                  <Show when={check.sentence()}>
                    {(sentence) => <p class={check.isTrue() ? 'waiting' : 'trouble'}>{sentence()}</p>}
                  </Show>
                  <TitledFigure
                    shown={() =>
                      whatIfDifferenceFigure(found(), on(), {
                        title: `${on().id}: sandbox less official up to ${formatShortInstant(sandbox.stretch()?.asOfEpochMs ?? 0, zone())}`,
                        selected: null,
                        timeZone: zone(),
                      })
                    }
                  />

                  <Show when={sandbox.levels()}>
                    {(levels) => <LevelFates compared={levels()} series={on().id} zone={zone()} />}
                  </Show>
                  <Show when={surfaceOf(on()) !== null}>
                    <SandboxSurface
                      series={on()}
                      values={sandbox.run()?.values ?? null}
                      moved={sandbox.moved()}
                      asOfEpochMs={sandbox.stretch()?.asOfEpochMs ?? 0}
                    />
                  </Show>
                  <Show when={drafts().length > 0}>
                    <DraftList drafts={drafts()} zone={zone()} />
                  </Show>
                  <Show when={!isFrozen()}>
                    <OfferCorrection
                      offered={offered()}
                      faults={sandbox.run()?.faults.length ?? 0}
                      corrections={corrections}
                      address={address}
                    />
                  </Show>
                </>
              )}
            </Show>
          </>
        )}
      </Show>
      <CorrectionList
        corrections={corrections}
        about={null}
        // What is on record now would be tried on top of itself.
        approved={() => tried.tryChanges([])}
      />
    </div>
  )
}
