import { createMemo, createSignal, For, Show } from 'solid-js'
import type { CoverageTestBody, PacketsOfFactor } from '#domain/field/field-bodies.ts'
import { judgeCoverageTest } from '#domain/radio/acceptance.ts'
import { packetsToSettle, settlingSentence } from '#domain/radio/packets-to-settle.ts'
import { spreadingFactors } from '#domain/site/vocabulary.ts'
import { sentenceOf } from '../../state/ask-server.ts'
import { knownEntries } from '../../state/field-work.ts'
import { ownPosition } from '../../state/own-position.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteNowEpochMs } from '../../state/site-now.ts'
import { synchronise } from '../../state/synchronise.ts'
import { createSigning } from './create-signing.ts'
import { OwnPlace } from './OwnPlace.tsx'
import { SignedBy } from './SignedBy.tsx'
import { TypedNumber } from './TypedNumber.tsx'
import { TypedChoice, TypedText } from './TypedText.tsx'

const unsent = (): readonly PacketsOfFactor[] =>
  spreadingFactors.map((spreadingFactor) => ({ spreadingFactor, sent: 0, received: null, signalDbm: null }))

/** A coverage test from where one stands: judged at once, or when the receiver's record comes. */
export function CoverageTestPage() {
  const [test, setTest] = createSignal('')
  const [mode, setMode] = createSignal<CoverageTestBody['mode']>('with-internet')
  const [logger, setLogger] = createSignal('')
  const [counts, setCounts] = createSignal(unsent())
  const signing = createSigning()
  const place = () => {
    const here = ownPosition()
    if (here) return here
    const document = siteDocument()
    const at = document?.loggers.find(({ id }) => id === logger())?.location
    const location = document?.locations.find(({ id }) => id === at)
    return location ? { ...location, accuracyMetres: 1 } : null
  }
  const known = createMemo(() =>
    counts().flatMap(({ spreadingFactor, sent, received }) =>
      // Half typed, or wrong: no verdict on it.
      received === null || sent === 0 || received > sent ? [] : [{ spreadingFactor, sent, received }],
    ),
  )
  const verdict = createMemo(() => (known().length === 0 ? null : judgeCoverageTest(known())))
  const change = (at: number, of: Partial<PacketsOfFactor>) =>
    setCounts(counts().map((one, i) => (i === at ? { ...one, ...of } : one)))
  /** Takes the receiver's record of this test, where it has come to the server. */
  const lookUp = async () => {
    signing.hinder(null)
    const site = siteDocument()?.facts.id ?? ''
    try {
      await synchronise(site)
    } catch (cause) {
      signing.hinder(
        `The server could not be asked: ${sentenceOf(cause)} Record the test now; it is matched when the record comes.`,
      )
      return
    }
    const record = knownEntries().findLast(
      ({ entry: { body } }) => body.kind === 'receiver-record' && body.test === test().trim(),
    )?.entry.body
    if (record?.kind !== 'receiver-record') {
      signing.hinder(
        `The server has no record of test ${test().trim()} yet. Wait, or record it without the result.`,
      )
      return
    }
    setCounts(
      counts().map((one) => {
        const heard = record.factors.find(({ spreadingFactor }) => spreadingFactor === one.spreadingFactor)
        return heard ? { ...one, received: heard.received, signalDbm: heard.signalDbm } : one
      }),
    )
  }
  const save = async (event: SubmitEvent) => {
    event.preventDefault()
    const site = siteDocument()?.facts.id
    const at = place()
    const sent = counts().filter((one) => one.sent > 0)
    const unsentHeard = counts().find(
      ({ sent: packets, received, signalDbm }) => packets === 0 && (received !== null || signalDbm !== null),
    )
    const wrong = sent.find(({ sent: packets, received }) => received !== null && received > packets)
    const against =
      test().trim() === ''
        ? 'Give the test its number: the receiver’s record is found by it.'
        : !at
          ? 'Use your position, choose where you stand, or name the logger: a test belongs to a place.'
          : unsentHeard
            ? `At spreading factor ${unsentHeard.spreadingFactor} something was received, but it is not said how many packets were sent. Nothing of it would be kept.`
            : sent.length === 0
              ? 'No packets were sent.'
              : wrong
                ? `At spreading factor ${wrong.spreadingFactor} more packets were received than sent.`
                : mode() === 'with-internet' && sent.some(({ received }) => received === null)
                  ? 'Some results are missing. Look them up, type them, or choose without internet.'
                  : signing.author().trim() === ''
                    ? 'Write your name: a test is signed.'
                    : null
    if (signing.hinder(against) || site === undefined || !at) return
    const kept = await signing.keep(
      {
        site,
        body: {
          kind: 'coverage-test',
          test: test().trim(),
          atEpochMs: siteNowEpochMs(),
          mode: mode(),
          logger: logger() === '' ? null : logger(),
          eastingMetres: at.eastingMetres,
          northingMetres: at.northingMetres,
          accuracyMetres: at.accuracyMetres,
          factors: sent,
        },
      },
      `Test ${test().trim()} is kept on this device.`,
    )
    if (!kept) return
    setTest('')
    setCounts(unsent())
  }
  return (
    <form class="field-page" aria-label="Coverage test" onSubmit={save}>
      <h2>Coverage test</h2>
      <OwnPlace />
      <div class="field-choices">
        <TypedText label="Test number" value={test()} onChange={setTest} />
        <TypedChoice
          label="Results"
          value={mode()}
          options={[
            { word: 'with-internet', name: 'looked up at once' },
            { word: 'without-internet', name: 'come later, with the receiver’s record' },
          ]}
          onChange={setMode}
        />
        <TypedChoice
          label="Logger that stands here"
          value={logger()}
          options={[
            { word: '', name: 'none' },
            ...(siteDocument()?.loggers ?? [])
              .filter(({ kind }) => kind === 'logger')
              .map(({ id }) => ({ word: id, name: id })),
          ]}
          onChange={setLogger}
        />
      </div>
      <table class="field-counts">
        <caption>Packets at each spreading factor; none sent: leave empty</caption>
        <thead>
          <tr>
            <th scope="col">Factor</th>
            <th scope="col">Sent</th>
            <th scope="col">Received</th>
            <th scope="col">Signal, dBm</th>
          </tr>
        </thead>
        <tbody>
          <For each={spreadingFactors}>
            {(factor, at) => (
              <tr>
                <th scope="row">{factor}</th>
                <td>
                  <TypedNumber
                    label={`Sent at ${factor}`}
                    value={counts()[at()]?.sent || null}
                    onChange={(value) => change(at(), { sent: whole(value) ?? 0 })}
                  />
                </td>
                <td>
                  <TypedNumber
                    label={`Received at ${factor}`}
                    value={counts()[at()]?.received ?? null}
                    onChange={(value) => change(at(), { received: whole(value) })}
                  />
                </td>
                <td>
                  <TypedNumber
                    label={`Signal at ${factor}`}
                    value={counts()[at()]?.signalDbm ?? null}
                    onChange={(signalDbm) => change(at(), { signalDbm })}
                  />
                </td>
              </tr>
            )}
          </For>
        </tbody>
      </table>
      <Show when={mode() === 'with-internet'}>
        <button type="button" disabled={test().trim() === ''} onClick={() => void lookUp()}>
          Look up the results of this test
        </button>
      </Show>
      <Show when={verdict()}>
        {(one) => (
          <div class="field-judged" role="status">
            <p>
              <strong>
                {one().verdict === 'accepted' ? 'Accepted by the rule' : 'Not accepted by the rule'}
              </strong>
              : {one().rule} ({one().ruleSource})
            </p>
            <Show when={one().best}>
              {(best) => (
                <p>
                  Best at factor {best().spreadingFactor}: {best().received} of {best().sent}, so the link may
                  truly deliver {Math.round(100 * best().interval.low)} to{' '}
                  {Math.round(100 * best().interval.high)} % (95 % interval).{' '}
                  {settlingSentence(packetsToSettle(best().received, best().sent), 0.5)}
                </p>
              )}
            </Show>
            <For each={one().cautions}>{(caution) => <p class="trouble">{caution}</p>}</For>
          </div>
        )}
      </Show>
      <SignedBy signing={signing} keep="Keep this test" />
    </form>
  )
}

const whole = (value: number | null): number | null =>
  value === null ? null : Math.max(0, Math.round(value))
