import { Show } from 'solid-js'
import type { ListedAlert } from '#contract/alerts.ts'
import { responseOf } from '../../derived/alerts/response-state.ts'
import { palette } from '../../state/theme.ts'
import { AlertFrame } from '../../ui/AlertFrame.tsx'

/** The frame that stands on the plan for an open alert; nothing for a closed one. */
export function ResponseFrame(props: { alert: ListedAlert; size: number }) {
  const drawn = () => {
    const response = responseOf(props.alert)
    return response === 'closed' ? null : response
  }
  return (
    <Show when={drawn()} fallback={<span />}>
      {(response) => <AlertFrame response={response()} palette={palette()} size={props.size} />}
    </Show>
  )
}
