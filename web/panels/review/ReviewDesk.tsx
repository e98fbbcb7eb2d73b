import { type Component, For, Show } from 'solid-js'
import { reportTrouble } from '../../state/notices.ts'
import { openReviewPage, type ReviewPage, reviewPage, reviewPages } from '../../state/review-page.ts'
import { Later } from '../../ui/Later.tsx'
import { ReviewPanel } from './ReviewPanel.tsx'
import './desk.css'

const pages: Readonly<
  Record<ReviewPage, { readonly name: string; readonly load: () => Promise<Component> }>
> = {
  case: { name: 'Evidence', load: async () => ReviewPanel },
  neighbours: {
    name: 'Neighbours',
    load: async () => (await import('./NeighboursPage.tsx')).NeighboursPage,
  },
  compare: { name: 'Compare', load: async () => (await import('./ComparePage.tsx')).ComparePage },
  patch: { name: 'Patch of plan', load: async () => (await import('./PatchPage.tsx')).PatchPage },
}

/** The desk where an odd reading is judged: its evidence, its neighbours, other series beside it, a patch of plan. */
export function ReviewDesk() {
  return (
    <div class="review-desk">
      <nav class="review-pages" aria-label="Review">
        <For each={reviewPages}>
          {(page) => (
            <button
              type="button"
              aria-current={reviewPage() === page ? 'page' : undefined}
              onClick={() => openReviewPage(page)}
            >
              {pages[page].name}
            </button>
          )}
        </For>
      </nav>
      <Show when={reviewPage()} keyed>
        {(page) => (
          <Show when={page !== 'case'} fallback={<ReviewPanel />}>
            <Later
              when={true}
              load={pages[page].load}
              waiting={`Fetching ${pages[page].name.toLowerCase()} …`}
              failed={(cause) => reportTrouble({ cause, retry: () => location.reload() })}
            />
          </Show>
        )}
      </Show>
    </div>
  )
}
