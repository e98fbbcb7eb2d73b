import { createSignal, For, Show } from 'solid-js'
import type { LevelPreview } from '#contract/level-proposals.ts'
import { withCombinations } from '#domain/levels/combinations-with.ts'
import { type LevelsFromFile, levelsCsv, levelsFromCsv } from '#domain/levels/levels-csv.ts'
import { type Issue, issueLine } from '#domain/outcome.ts'
import { siteTables } from '#domain/site/tables.ts'
import { sentenceOf } from '../../state/ask-server.ts'
import { siteDocument, siteLookup } from '../../state/site-document.ts'
import { siteNowEpochMs } from '../../state/site-now.ts'
import { announce } from '../../ui/announce.ts'
import type { Proposals } from './create-proposals.ts'
import { PreviewResult } from './PreviewResult.tsx'
import { SignProposal } from './SignProposal.tsx'

const mostBytes = 2 * 1024 ** 2
const triedDays = 30

/** Levels as a file: taken away as one, and handed in as one, which becomes a proposal. */
export function LevelFile(props: { proposals: Proposals; done: () => void }) {
  const [read, setRead] = createSignal<LevelsFromFile | null>(null)
  const [issues, setIssues] = createSignal<readonly Issue[]>([])
  const [preview, setPreview] = createSignal<LevelPreview | null>(null)
  const [working, setWorking] = createSignal<string | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const [reason, setReason] = createSignal('')
  const levels = () => siteDocument()?.triggerLevels ?? []
  const changes = () => {
    const made = read()?.changes ?? []
    return made.length === 0 ? null : made
  }

  const unitOf = (series: string) => siteLookup().seriesById.get(series)?.unit ?? null
  /** Away from the page the name alone tells whose levels they are, and that a site is invented. */
  const fileName = () => {
    const facts = siteDocument()?.facts
    return [facts?.id, 'trigger-levels', ...(facts?.invented ? ['invented-data'] : [])]
      .join('-')
      .concat('.csv')
  }

  const download = () => {
    const link = document.createElement('a')
    // The mark says to a spreadsheet that the text is UTF-8; whoever reads the file here passes over it.
    const text = `\ufeff${levelsCsv(levels(), unitOf)}`
    link.href = URL.createObjectURL(new Blob([text], { type: 'text/csv;charset=utf-8' }))
    link.download = fileName()
    link.click()
    URL.revokeObjectURL(link.href)
  }
  const take = async (file: File) => {
    setRead(null)
    setPreview(null)
    setIssues([])
    setTrouble(null)
    if (file.size > mostBytes)
      return void setTrouble(
        `${file.name} is larger than 2 MiB. A table of levels is not: choose another file.`,
      )
    const outcome = levelsFromCsv(await file.text(), levels(), siteNowEpochMs(), unitOf)
    if (!outcome.ok) return void setIssues(outcome.issues)
    setRead({ ...outcome.value, changes: withCombinations(levels(), outcome.value.changes) })
    announce(`${file.name}: ${outcome.value.changes.length} changes`)
    if (outcome.value.changes.length > 0) await attempt(null)
  }
  const attempt = async (fromEpochMs: number | null) => {
    const made = changes()
    if (made === null) return
    setWorking(fromEpochMs === null ? 'Judging …' : 'Working out past values …')
    try {
      const answer = await props.proposals.preview({ changes: [...made], reason: reason(), fromEpochMs })
      if (answer) setPreview(answer)
      setTrouble(null)
    } catch (cause) {
      setPreview(null)
      setTrouble(sentenceOf(cause))
    } finally {
      setWorking(null)
    }
  }
  return (
    <section class="levels-page" aria-label="Levels as a file">
      <h2>Take the levels away</h2>
      <p>
        All {levels().length} levels with the unit of each value; instants are in UTC. Without its column unit
        it is {siteTables.triggerLevels.file} of a site folder. Texts that a spreadsheet would run as a
        formula get an apostrophe before them.
      </p>
      <div class="buttons">
        <button type="button" onClick={download}>
          Save {fileName()}
        </button>
      </div>
      <h2>Hand levels in</h2>
      <p>
        A file with the same headings; a unit that stands in it must be that of the series. What differs from
        the levels here becomes one proposal; levels that the file does not have stay. Names of author and
        approver in the file do not count.
      </p>
      <label class="levels-file">
        File of levels
        <input
          type="file"
          accept=".csv,text/csv"
          onChange={(event) => {
            const file = event.currentTarget.files?.[0]
            if (file) void take(file)
          }}
        />
      </label>
      <Show when={trouble()}>{(sentence) => <p class="trouble">{sentence()}</p>}</Show>
      <Show when={issues().length > 0}>
        <p class="trouble" role="alert">
          Nothing can be proposed from this file:
        </p>
        <ul>
          <For each={issues().slice(0, 30)}>{(issue) => <li>{issueLine(issue)}</li>}</For>
        </ul>
      </Show>
      <Show when={read()}>
        {(known) => (
          <>
            <p role="status">
              {known().changes.filter(({ kind }) => kind === 'add').length} new,{' '}
              {known().changes.filter(({ kind }) => kind === 'replace').length} replaced,{' '}
              {known().changes.filter(({ kind }) => kind === 'end').length} ended, {known().unchanged} as they
              are, {known().notInFile.length} not in the file.
            </p>
            <Show when={changes()}>
              <ul class="levels-changes">
                <For each={known().changes.slice(0, 50)}>
                  {(change) => (
                    <li>
                      {change.kind === 'add' && `New: ${change.level.id}`}
                      {change.kind === 'replace' && `${change.id} is replaced by ${change.level.id}`}
                      {change.kind === 'end' && `${change.id} ends`}
                    </li>
                  )}
                </For>
                <Show when={known().changes.length > 50}>
                  <li>and {known().changes.length - 50} more</li>
                </Show>
              </ul>
              <div class="buttons">
                <button
                  type="button"
                  disabled={working() !== null}
                  onClick={() => void attempt(siteNowEpochMs() - triedDays * 86_400_000)}
                >
                  Try on the last {triedDays} days
                </button>
              </div>
              <p role="status">{working() ?? ''}</p>
              <Show when={preview()}>{(shown) => <PreviewResult preview={shown()} named={true} />}</Show>
              <SignProposal
                proposals={props.proposals}
                changes={changes}
                reason={reason()}
                setReason={setReason}
                done={props.done}
              />
            </Show>
          </>
        )}
      </Show>
    </section>
  )
}
