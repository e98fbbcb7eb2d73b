import { For, Show } from 'solid-js'
import { networkPage, networkPages, openNetworkPage } from '../../state/network-page.ts'
import { reportTrouble } from '../../state/notices.ts'
import { Later } from '../../ui/Later.tsx'
import { networkPageParts } from './network-pages.ts'
import './network.css'

/** The radio network of loggers and gateways, one page at a time. */
export function NetworkPanel() {
  const failed = (cause: unknown) => reportTrouble({ cause, retry: () => location.reload() })
  return (
    <div class="network-panel">
      <nav class="network-pages" aria-label="Network">
        <For each={networkPages}>
          {(page) => (
            <button
              type="button"
              aria-current={networkPage() === page ? 'page' : undefined}
              onClick={() => openNetworkPage(page)}
            >
              {networkPageParts[page].name}
            </button>
          )}
        </For>
      </nav>
      <Show when={networkPage()} keyed>
        {(page) => (
          <Later
            when={true}
            load={networkPageParts[page].load}
            waiting={`Fetching ${networkPageParts[page].name.toLowerCase()} …`}
            failed={failed}
          />
        )}
      </Show>
    </div>
  )
}
