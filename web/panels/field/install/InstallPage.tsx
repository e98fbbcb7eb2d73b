import { createMemo, createSignal, For, Show } from 'solid-js'
import type { InstallationBody } from '#domain/field/field-bodies.ts'
import { installationFaults } from '#domain/field/installation-faults.ts'
import { type InstrumentKind, instrumentKinds } from '#domain/site/vocabulary.ts'
import { draftFiles, draftText, keepDraftFiles, keepDraftText } from '../../../state/field-drafts.ts'
import { knownEntries } from '../../../state/field-work.ts'
import { siteDocument } from '../../../state/site-document.ts'
import { siteNowEpochMs } from '../../../state/site-now.ts'
import { kindNames } from '../../../ui/kind-names.ts'
import { sync } from '../../../ui/sync.ts'
import { createSigning } from '../create-signing.ts'
import { FilesField } from '../FilesField.tsx'
import { SignedBy } from '../SignedBy.tsx'
import { TypedChoice, TypedInstant, TypedText } from '../TypedText.tsx'
import { installationOf } from './draft-installation.ts'
import { emptyInstallation, emptyPoint, emptySensor } from './empty-installation.ts'
import { InstallationCard } from './InstallationCard.tsx'
import { knownSite } from './known-site.ts'
import { MissingOf } from './MissingOf.tsx'
import { PointFields } from './PointFields.tsx'
import { SignFields } from './SignFields.tsx'
import { SurveyFields } from './SurveyFields.tsx'
import { standingInstallations } from './standing-installations.ts'

/** An instrument as it is put in: recorded on the spot, commissioned when nothing is missing and a second person agrees. */
export function InstallPage() {
  const site = siteDocument()?.facts.id ?? ''
  // A grid and its names are a site's own: what was typed at one must not appear at another.
  const draft = `installation ${site}`
  const [body, setBody] = createSignal<InstallationBody>(
    installationOf(draftText(draft)) ?? emptyInstallation(siteNowEpochMs()),
  )
  const files = () => draftFiles(draft)
  const setFiles = (chosen: readonly File[]) => keepDraftFiles(draft, chosen)
  const signing = createSigning()
  // What was typed outlives a closed page.
  sync(body, (now) => keepDraftText(draft, JSON.stringify(now)))
  const change = (of: Partial<InstallationBody>) => setBody({ ...body(), ...of })
  const faults = createMemo(() => installationFaults(body(), knownSite()))
  const recorded = createMemo(() => standingInstallations(knownEntries()))
  const save = async (event: SubmitEvent) => {
    event.preventDefault()
    const against =
      body().instrument.trim() === ''
        ? 'Give the instrument a name before it is recorded.'
        : signing.author().trim() === ''
          ? 'Write your name: an installation is signed.'
          : null
    if (signing.hinder(against)) return
    const kept = await signing.keep(
      { site, body: body(), files: files() },
      `${body().instrument} is recorded on this device${faults().length === 0 ? '; a second person has to check it' : `; ${faults().length} things are missing`}.`,
    )
    if (!kept) return
    setFiles([])
    setBody(emptyInstallation(siteNowEpochMs()))
  }
  /** Takes a recorded installation into the form, never over one that is being typed. */
  const goOn = (from: InstallationBody) => {
    const typed = body().instrument.trim()
    const isAnother = typed !== '' && typed !== from.instrument
    signing.hinder(
      isAnother
        ? `${typed} is being typed below and is not recorded yet. Record it first; what is missing may stay missing until later.`
        : null,
    )
    if (!isAnother) setBody(from)
  }
  return (
    <section class="field-page" aria-label="Install">
      <h2>Install</h2>
      <Show when={recorded().length > 0}>
        <h3>Recorded</h3>
        {/* By id: what is typed into a card outlives a synchronisation. */}
        <For each={recorded().map(({ written }) => written.entry.id)}>
          {(id) => (
            <Show when={recorded().find(({ written }) => written.entry.id === id)}>
              {(one) => (
                <InstallationCard
                  written={one().written}
                  disputed={one().disputed}
                  entries={knownEntries().map(({ entry, stored }) => ({
                    ...entry,
                    sender: stored?.sender ?? null,
                  }))}
                  goOn={goOn}
                />
              )}
            </Show>
          )}
        </For>
      </Show>
      <form class="field-page" aria-label="Record an installation" onSubmit={save}>
        <h3>Record an installation</h3>
        <div class="field-choices">
          <TypedText
            label="Name"
            value={body().instrument}
            onChange={(instrument) => change({ instrument })}
          />
          <TypedChoice
            label="Kind"
            value={body().instrumentKind}
            options={instrumentKinds.map((word) => ({ word, name: kindNames[word] }))}
            onChange={(instrumentKind: InstrumentKind) => change({ instrumentKind })}
          />
          <TypedInstant
            label="Installed at"
            value={body().installedAtEpochMs}
            onChange={(at) => {
              if (at !== null) change({ installedAtEpochMs: at })
            }}
          />
          <TypedText
            label="Follows on from, if it replaces one"
            value={body().replaces ?? ''}
            list={(siteDocument()?.instruments ?? []).map(({ id }) => id)}
            onChange={(text) => change({ replaces: text === '' ? null : text })}
          />
        </div>
        <SurveyFields body={body()} change={change} />
        <SignFields body={body()} change={change} />
        <For each={body().points.map((_, at) => at)}>
          {(at) => (
            <PointFields
              body={body()}
              point={body().points[at] ?? emptyPoint(body().instrument, at, emptySensor)}
              onChange={(point) =>
                change({ points: body().points.map((one, i) => (i === at ? point : one)) })
              }
              onRemove={() => change({ points: body().points.filter((_, i) => i !== at) })}
            />
          )}
        </For>
        <button
          type="button"
          onClick={() =>
            change({
              points: [...body().points, emptyPoint(body().instrument, body().points.length, emptySensor)],
            })
          }
        >
          Add a measuring point
        </button>
        <FilesField files={files()} onChange={setFiles} />
        <MissingOf faults={faults()} />
        <SignedBy signing={signing} keep="Record this installation" />
      </form>
    </section>
  )
}
