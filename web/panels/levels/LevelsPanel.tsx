import { createSignal, For, Match, Show, Switch } from 'solid-js'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { createProposals } from './create-proposals.ts'
import { EndLevelForm } from './EndLevelForm.tsx'
import { LevelFile } from './LevelFile.tsx'
import { LevelForm } from './LevelForm.tsx'
import { LevelTable } from './LevelTable.tsx'
import { ProposalList } from './ProposalList.tsx'
import './levels.css'

type Page =
  | { readonly is: 'list' }
  | { readonly is: 'proposals'; readonly about: string | null }
  | { readonly is: 'file' }
  | { readonly is: 'propose'; readonly level: TriggerLevel | null }
  | { readonly is: 'end'; readonly level: TriggerLevel }

/** Trigger levels: which there are and apply, and how two people change them. */
export function LevelsPanel() {
  const proposals = createProposals()
  const [page, setPage] = createSignal<Page>({ is: 'list' })
  const waiting = () => (proposals.list()?.proposals ?? []).filter(({ decision }) => decision === null).length
  const proposed = () => setPage({ is: 'proposals', about: null })
  const pages = (): readonly { readonly to: Page; readonly name: string }[] => [
    { to: { is: 'list' }, name: 'Levels' },
    {
      to: { is: 'proposals', about: null },
      name: proposals.trouble()
        ? 'Proposals, not known now'
        : waiting() === 0
          ? 'Proposals'
          : `Proposals, ${waiting()} waiting`,
    },
    { to: { is: 'propose', level: null }, name: 'Propose a level' },
    { to: { is: 'file' }, name: 'File' },
  ]
  return (
    <div class="levels-panel">
      <nav class="levels-pages" aria-label="Trigger levels">
        <For each={pages()}>
          {({ to, name }) => (
            <button
              type="button"
              aria-current={page().is === to.is ? 'page' : undefined}
              onClick={() => setPage(to)}
            >
              {name}
            </button>
          )}
        </For>
      </nav>
      <Switch>
        <Match when={page().is === 'list'}>
          <LevelTable
            waiting={proposals.list()?.proposals ?? []}
            change={(level) => setPage({ is: 'propose', level })}
            end={(level) => setPage({ is: 'end', level })}
            history={(level) => setPage({ is: 'proposals', about: level.id })}
          />
        </Match>
        <Match when={shown(page(), 'proposals')}>
          {(shown) => (
            <ProposalList
              proposals={proposals}
              about={shown().about}
              all={() => setPage({ is: 'proposals', about: null })}
            />
          )}
        </Match>
        <Match when={shown(page(), 'propose')}>
          {(shown) => (
            <Show when={shown()} keyed>
              {({ level }) => <LevelForm proposals={proposals} level={level} done={proposed} />}
            </Show>
          )}
        </Match>
        <Match when={shown(page(), 'end')}>
          {(shown) => <EndLevelForm proposals={proposals} level={shown().level} done={proposed} />}
        </Match>
        <Match when={page().is === 'file'}>
          <LevelFile proposals={proposals} done={proposed} />
        </Match>
      </Switch>
    </div>
  )
}

const shown = <K extends Page['is']>(page: Page, is: K): Extract<Page, { is: K }> | null =>
  page.is === is ? (page as Extract<Page, { is: K }>) : null
