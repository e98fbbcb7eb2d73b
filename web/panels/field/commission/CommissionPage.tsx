import { createMemo, createSignal, For, Show } from 'solid-js'
import { Portal } from 'solid-js/web'
import { commissioningStanding } from '#domain/field/commissioning-standing.ts'
import { commissioningStart } from '#domain/field/commissioning-start.ts'
import { commissioningSteps } from '#domain/field/commissioning-steps.ts'
import type { CommissioningStepBody, FieldBody } from '#domain/field/field-bodies.ts'
import { clockAheadMs, knownEntries } from '../../../state/field-work.ts'
import { selectedPoint } from '../../../state/selection.ts'
import { siteDocument } from '../../../state/site-document.ts'
import { createSigning } from '../create-signing.ts'
import { TypedChoice, TypedText } from '../TypedText.tsx'
import { CommissioningRecord } from './CommissioningRecord.tsx'
import { channelsOf, surroundingsOf } from './commissioning-surroundings.ts'
import { StepFields } from './StepFields.tsx'

/** A logger is commissioned step by step, each with what was found; signed when every step is done or skipped for a reason. */
export function CommissionPage() {
  const loggers = () =>
    (siteDocument()?.loggers ?? []).filter(({ kind }) => kind === 'logger').map(({ id }) => id)
  const [logger, setLogger] = createSignal(loggers().find((id) => id === selectedPoint()?.id) ?? '')
  const signing = createSigning()
  const [begunAnew, setBegunAnew] = createSignal<string | null>(null)
  const entries = () => knownEntries().map(({ entry }) => entry)
  const last = createMemo(() =>
    entries().findLast(({ body }) => body.kind === 'commissioning-step' && body.logger === logger()),
  )
  const commissioning = createMemo(() => {
    const body = last()?.body
    return begunAnew() ?? (body?.kind === 'commissioning-step' ? body.commissioning : null)
  })
  const steps = createMemo(() => commissioningSteps(channelsOf(logger())))
  const standing = createMemo(() => {
    const on = commissioning()
    return on === null ? null : commissioningStanding(logger(), on, steps(), entries())
  })
  /** A receipt counts from when this work began, by the server's clock; at invented data, from its present. */
  const startedAtEpochMs = createMemo(
    () =>
      siteDocument()?.facts.presentEpochMs ??
      commissioningStart(entries(), commissioning() ?? '', clockAheadMs()) ??
      Date.now() - (clockAheadMs() ?? 0),
  )
  /** Whether it was kept. */
  const write = async (body: FieldBody, files: readonly File[]) => {
    const site = siteDocument()?.facts.id
    const isNameless = signing.author().trim() === ''
    if (signing.hinder(isNameless ? 'Write your name first: every step is signed.' : null)) return false
    return site !== undefined && signing.keep({ site, body, files }, 'Kept on this device')
  }
  const saveStep = (
    found: Pick<CommissioningStepBody, 'step' | 'outcome' | 'reason' | 'evidence'>,
    files: readonly File[],
  ) =>
    write(
      { kind: 'commissioning-step', logger: logger(), commissioning: commissioning() ?? '', ...found },
      files,
    )
  const sign = () =>
    write(
      {
        kind: 'commissioning-signature',
        logger: logger(),
        commissioning: commissioning() ?? '',
        entries: standing()?.steps.flatMap((one) => one.entries.map(({ id }) => id)) ?? [],
        statement: `${logger()} was commissioned as recorded in these steps.`,
      },
      [],
    )
  const channelOf = (step: string) =>
    channelsOf(logger()).find(({ channel }) => step === `channel:${channel}`) ?? null
  return (
    <section class="field-page" aria-label="Commission a logger">
      <h2>Commission a logger</h2>
      <div class="field-choices">
        <TypedChoice
          label="Logger"
          value={logger()}
          options={[
            { word: '', name: 'Choose the logger …' },
            ...loggers().map((word) => ({ word, name: word })),
          ]}
          onChange={(word) => {
            setBegunAnew(null)
            setLogger(word)
          }}
        />
        <TypedText label="Your name" value={signing.author()} onChange={signing.setAuthor} />
      </div>
      <div class="field-row">
        <button type="button" disabled={logger() === ''} onClick={() => setBegunAnew(crypto.randomUUID())}>
          {logger() === ''
            ? 'Begin commissioning'
            : commissioning() === null
              ? `Begin commissioning ${logger()}`
              : `Begin ${logger()} anew`}
        </button>
        <Show when={standing()}>
          <button type="button" onClick={() => print()}>
            Print the record
          </button>
        </Show>
      </div>
      <Show when={signing.trouble()}>
        <p class="trouble" role="alert">
          {signing.trouble()}
        </p>
      </Show>
      <Show when={standing()}>
        {(now) => (
          <>
            <p role="status">
              {now().status === 'signed'
                ? `Signed by ${now().signedBy}.`
                : now().status === 'complete'
                  ? 'Every step is done or skipped for a reason: to be signed.'
                  : `${now().steps.filter(({ standing: of }) => of === 'done' || of === 'skipped').length} of ${now().steps.length} steps are done or skipped.`}
            </p>
            {/* Fields of one commissioning are never those of another. */}
            <Show when={commissioning()} keyed>
              {(_commissioning) => (
                <For each={steps().map(({ id }) => id)}>
                  {(id) => (
                    <Show when={standing()?.steps.find(({ step }) => step.id === id)}>
                      {(one) => (
                        <StepFields
                          standing={one()}
                          around={surroundingsOf(logger(), startedAtEpochMs(), channelOf(id))}
                          save={saveStep}
                        />
                      )}
                    </Show>
                  )}
                </For>
              )}
            </Show>
            <Show when={now().status === 'complete'}>
              <button type="button" onClick={() => void sign()}>
                Sign: {logger()} was commissioned as recorded
              </button>
            </Show>
            <Portal>
              <div class="print-sheet" aria-hidden="true">
                <CommissioningRecord logger={logger()} standing={now()} />
              </div>
            </Portal>
          </>
        )}
      </Show>
    </section>
  )
}
