import { Show } from 'solid-js'
import { areRecordsUnfetched, publishing } from '../state/publishing.ts'

/** Stands above the plan while values are worked out anew: what is shown until then is from before. */
export function PublishingBanner() {
  const sentence = () => {
    if (areRecordsUnfetched())
      return 'Newer records could not be fetched yet: levels, wiring and calibrations shown here are from before the last change. They are asked for again.'
    const now = publishing()
    if (!now?.behind) return null
    if (now.failedAtEpochMs !== null)
      return 'Values could not be worked out anew; what is shown is from before the last change. The server’s report says why.'
    const { running } = now
    const where =
      running === null || running.month === null
        ? ''
        : `: ${running.month}, ${running.at} of ${running.of} months`
    return `Values are being worked out anew${where}. What is shown is from before the change.`
  }
  return (
    <Show when={sentence()}>
      {(text) => (
        <p class="publishing-banner" role="status">
          <span>{text()}</span>
          <Show when={publishing()?.running}>
            {(running) => (
              <progress aria-label="Months worked out" max={Math.max(1, running().of)} value={running().at} />
            )}
          </Show>
        </p>
      )}
    </Show>
  )
}
