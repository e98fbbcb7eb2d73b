import { createSignal, Show } from 'solid-js'
import { megabytes } from '../../offline/keep-site.ts'
import { sentenceOf } from '../../state/ask-server.ts'
import { waitingCount, waitingWork } from '../../state/field-work.ts'
import {
  type KeepingPlan,
  keeping,
  keepingTrouble,
  keepOnDevice,
  lookAtDevice,
  onDevice,
  planKeeping,
  stopKeeping,
} from '../../state/kept-on-device.ts'
import { siteDocument } from '../../state/site-document.ts'
import { sync } from '../../ui/sync.ts'
import { waitingSentence } from './waiting-sentence.ts'

/** What this device keeps so that field work goes on without a network, and how much room it takes. */
export function DevicePage() {
  const site = () => siteDocument()?.facts.id
  const [plan, setPlan] = createSignal<KeepingPlan | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const [withRaw, setWithRaw] = createSignal(false)
  sync(site, (id) => {
    if (id !== undefined) lookAtDevice(id).catch((cause) => setTrouble(sentenceOf(cause)))
  })
  sync(
    () => ({ id: site(), raw: withRaw() }),
    ({ id, raw }) => {
      if (id === undefined) return
      planFor(id, raw).then(setPlan, (cause) => setTrouble(sentenceOf(cause)))
    },
  )
  return (
    <section class="field-page" aria-label="Kept on this device">
      <h2>Kept on this device</h2>
      <p role="status">{standing()}</p>
      <Show when={onDevice()?.storage}>
        {(storage) => (
          <p>
            This browser uses {megabytes(storage().usedBytes)} of the {megabytes(storage().allowedBytes)} that
            it allows here
            {onDevice()?.persistent
              ? ', and will not clear it by itself'
              : '; it may clear it when room runs short'}
            .
          </p>
        )}
      </Show>
      <label class="field-check">
        <input
          type="checkbox"
          checked={withRaw()}
          onChange={(event) => setWithRaw(event.currentTarget.checked)}
        />
        Every single reading of the last month too
      </label>
      <Show when={plan()}>
        {(wanted) => (
          <>
            <p>
              To be kept: {megabytes(wanted().shellBytes + wanted().sliceBytes)}, of which the page and its
              analysis engine are {megabytes(wanted().shellBytes)} and hourly and daily values of all months{' '}
              {withRaw() ? 'and single readings ' : ''}
              {megabytes(wanted().sliceBytes)}. What is here already is not fetched again.
            </p>
            <Show
              when={keeping()}
              fallback={
                <button type="button" onClick={() => void keepOnDevice(site() ?? '', wanted())}>
                  Keep this site on this device
                </button>
              }
            >
              {(progress) => (
                <p class="field-progress">
                  <label>
                    Keeping {progress().what}: {megabytes(progress().bytesDone)} of{' '}
                    {megabytes(progress().bytesTotal)}
                    <progress max={progress().bytesTotal} value={progress().bytesDone} />
                  </label>
                  <button type="button" onClick={stopKeeping}>
                    Stop
                  </button>
                </p>
              )}
            </Show>
          </>
        )}
      </Show>
      <Show when={trouble() ?? keepingTrouble()}>{(sentence) => <p class="trouble">{sentence()}</p>}</Show>
    </section>
  )
}

function standing(): string {
  const device = onDevice()
  const work =
    waitingCount() === 0
      ? ''
      : ` ${waitingSentence(waitingWork())} Do not clear this browser’s data, remove this page from the device or hand the device back before: what waits exists here alone.`
  if (!device) return `Looking at what is kept …${work}`
  if (device.shellVersion === null)
    return `Nothing is kept yet: without a network this page will not open on this device.${work}`
  const { kept, wanted } = device.slices
  const readings =
    wanted === 0
      ? 'which readings are kept cannot be told now'
      : kept === wanted
        ? 'hourly and daily values of all months are kept'
        : `${megabytes(kept)} of ${megabytes(wanted)} of hourly and daily values are kept`
  return `The page opens without a network; ${readings}.${work}`
}

async function planFor(site: string, withRaw: boolean): Promise<KeepingPlan> {
  const plan = await planKeeping(site, new Set())
  const last = plan.list.slices
    .map(({ month }) => month)
    .sort()
    .at(-1)
  return withRaw && last !== undefined ? planKeeping(site, new Set([last])) : plan
}
