import { createMemo, createSignal, For, Show } from 'solid-js'
import type { InstallationBody } from '#domain/field/field-bodies.ts'
import { installationFaults, isInHole } from '#domain/field/installation-faults.ts'
import { standingEntries } from '#domain/field/standing-entries.ts'
import { type InstrumentKind, instrumentKinds } from '#domain/site/vocabulary.ts'
import { draftFiles, draftText, keepDraftFiles, keepDraftText } from '../../../state/field-drafts.ts'
import { type KnownEntry, knownEntries, writeDown } from '../../../state/field-work.ts'
import { rememberedName, rememberName } from '../../../state/own-name.ts'
import { ownPosition } from '../../../state/own-position.ts'
import { siteDocument } from '../../../state/site-document.ts'
import { siteNowEpochMs } from '../../../state/site-now.ts'
import { announce } from '../../../ui/announce.ts'
import { kindNames } from '../../../ui/kind-names.ts'
import { sync } from '../../../ui/sync.ts'
import { FilesField } from '../FilesField.tsx'
import { roomSentence } from '../ReadingPage.tsx'
import { TypedNumber } from '../TypedNumber.tsx'
import { TypedChoice, TypedInstant, TypedText } from '../TypedText.tsx'
import { emptyInstallation, emptyPoint, emptySensor } from './empty-installation.ts'
import { InstallationCard } from './InstallationCard.tsx'
import { knownSite } from './known-site.ts'
import { PointFields } from './PointFields.tsx'

/** An instrument as it is put in: recorded on the spot, commissioned when nothing is missing and a second person agrees. */
export function InstallPage() {
  const site = siteDocument()?.facts.id ?? ''
  // A grid and its names are a site's own: what was typed at one must not appear at another.
  const draft = `installation ${site}`
  const [body, setBody] = createSignal<InstallationBody>(
    installationOf(draftText(draft)) ?? emptyInstallation(siteNowEpochMs()),
  )
  const [author, setAuthor] = createSignal(rememberedName())
  const files = () => draftFiles(draft)
  const setFiles = (chosen: readonly File[]) => keepDraftFiles(draft, chosen)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const [said, setSaid] = createSignal<string | null>(null)
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
        : author().trim() === ''
          ? 'Write your name: an installation is signed.'
          : null
    setTrouble(against)
    if (against !== null) return
    rememberName(author())
    try {
      await writeDown({ site, body: body(), author: author(), position: ownPosition(), files: files() })
      const sentence = `${body().instrument} is recorded on this device${faults().length === 0 ? '; a second person has to check it' : `; ${faults().length} things are missing`}.`
      setSaid(sentence)
      announce(sentence)
      setFiles([])
      setBody(emptyInstallation(siteNowEpochMs()))
    } catch (cause) {
      setTrouble(`Nothing was kept: ${roomSentence(cause)}`)
    }
  }
  /** Takes a recorded installation into the form, never over one that is being typed. */
  const goOn = (from: InstallationBody) => {
    const typed = body().instrument.trim()
    const isAnother = typed !== '' && typed !== from.instrument
    setTrouble(
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
        <fieldset class="field-group">
          <legend>Collar as surveyed</legend>
          <div class="field-choices">
            <TypedNumber
              label="Easting"
              unit="m"
              value={body().eastingMetres}
              onChange={(eastingMetres) => change({ eastingMetres })}
            />
            <TypedNumber
              label="Northing"
              unit="m"
              value={body().northingMetres}
              onChange={(northingMetres) => change({ northingMetres })}
            />
            <TypedNumber
              label="Level"
              unit="m"
              value={body().collarLevelMetres}
              onChange={(collarLevelMetres) => change({ collarLevelMetres })}
            />
            <TypedInstant
              label="Surveyed at"
              value={body().surveyedAtEpochMs}
              onChange={(surveyedAtEpochMs) => change({ surveyedAtEpochMs })}
            />
            <TypedText
              label="Surveyed by"
              value={body().surveyedBy}
              onChange={(surveyedBy) => change({ surveyedBy })}
            />
          </div>
        </fieldset>
        <Show when={isInHole(body().instrumentKind)}>
          <fieldset class="field-group">
            <legend>Hole as drilled</legend>
            <div class="field-choices">
              <TypedNumber
                label="Bearing from grid north"
                unit="°"
                value={body().azimuthDegrees}
                onChange={(azimuthDegrees) => change({ azimuthDegrees })}
              />
              <TypedNumber
                label="Angle below horizontal"
                unit="°"
                value={body().dipDegrees}
                onChange={(dipDegrees) => change({ dipDegrees })}
              />
              <TypedNumber
                label="Length"
                unit="m"
                value={body().lengthMetres}
                onChange={(lengthMetres) => change({ lengthMetres })}
              />
              <TypedText label="Grout" value={body().grout} onChange={(grout) => change({ grout })} />
            </div>
          </fieldset>
        </Show>
        <div class="field-choices">
          <TypedNumber
            label="Bearing of the positive A axis from grid north"
            unit="°"
            value={body().axisBearingDegrees}
            onChange={(axisBearingDegrees) => change({ axisBearingDegrees })}
          />
          <TypedText
            label="What a positive value means"
            value={body().positiveMeans}
            onChange={(positiveMeans) => change({ positiveMeans })}
          />
          <TypedChoice
            label="End taken to stand still"
            value={body().fixedEnd ?? ''}
            options={[
              { word: '', name: 'does not apply' },
              { word: 'toe', name: 'toe' },
              { word: 'head', name: 'head' },
              { word: 'deepest-anchor', name: 'deepest anchor' },
              { word: 'surveyed-head', name: 'surveyed head' },
              { word: 'none', name: 'none' },
            ]}
            onChange={(word) =>
              change({ fixedEnd: word === '' ? null : (word as InstallationBody['fixedEnd']) })
            }
          />
        </div>
        <label class="field-check">
          <input
            type="checkbox"
            checked={body().critical}
            onChange={(event) => change({ critical: event.currentTarget.checked })}
          />
          Its silence must itself be noticed
        </label>
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
        <details class="field-missing">
          <summary>
            {faults().length === 0
              ? 'Nothing is missing but a second person’s check'
              : `${faults().length} things are missing before it can be commissioned`}
          </summary>
          <ul>
            <For each={faults()}>{(fault) => <li>{fault.message}</li>}</For>
          </ul>
        </details>
        <TypedText label="Your name" value={author()} onChange={setAuthor} />
        <button type="submit">Record this installation</button>
        <Show when={trouble()}>
          <p class="trouble" role="alert">
            {trouble()}
          </p>
        </Show>
        <Show when={said()}>
          <p role="status">{said()}</p>
        </Show>
      </form>
    </section>
  )
}

/** Installations as they stand, the latest record of each; more than one where two people recorded apart. */
function standingInstallations(known: readonly KnownEntry[]) {
  const byId = new Map(known.map((one) => [one.entry.id, one]))
  return standingEntries(known.map(({ entry }) => entry)).flatMap(({ entries, disputed }) =>
    entries.flatMap((entry) => {
      const one = byId.get(entry.id)
      return entry.body.kind === 'installation' && one ? [{ written: one, disputed }] : []
    }),
  )
}

/** A draft of this form as it was kept; null: none, or not to be read. */
function installationOf(text: string): InstallationBody | null {
  try {
    const kept = JSON.parse(text) as InstallationBody | null
    return kept?.kind === 'installation' ? kept : null
  } catch {
    return null
  }
}
