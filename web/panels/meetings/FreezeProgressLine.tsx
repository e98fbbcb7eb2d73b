import { createSignal, onCleanup } from 'solid-js'
import type { FreezeProgress, FrozenSets } from '#contract/frozen-sets.ts'
import { askServer } from '../../state/ask-server.ts'
import { sitePath } from '../../state/open-site.ts'

const askAgainMs = 1500

/** How far the freezing of a site is, asked for as long as this is shown. */
export function FreezeProgressLine(props: { site: string }) {
  const [progress, setProgress] = createSignal<FreezeProgress | null>(null)
  const ask = () =>
    askServer<FrozenSets>(sitePath(props.site, '/frozen')).then(
      ({ running }) => setProgress(running),
      // How far it is need not be known; whether it was done, the form says.
      () => setProgress(null),
    )
  const timer = setInterval(() => void ask(), askAgainMs)
  onCleanup(() => clearInterval(timer))
  return (
    <p class="waiting" role="status">
      {sentenceOf(progress())}
    </p>
  )
}

function sentenceOf(progress: FreezeProgress | null): string {
  if (progress === null || progress.month === null) return 'Freezing the data; this can take a minute …'
  return `Freezing the data: ${progress.month}, month ${progress.at} of ${progress.of} …`
}
