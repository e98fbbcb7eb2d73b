import { type Component, Show } from 'solid-js'
import { Dynamic } from 'solid-js/web'
import type { BoardKind } from '#domain/meeting/meeting.ts'
import { SurfaceKey } from '../../panels/SurfaceKey.tsx'
import { shownBoard } from '../../state/meeting.ts'
import { planSurface } from '../../state/plan-surface.ts'
import { PlanMap } from '../../views/plan-map/PlanMap.tsx'
import { ChangeBoard } from './boards/ChangeBoard.tsx'
import { ExceedancesBoard } from './boards/ExceedancesBoard.tsx'
import { HistoryBoard } from './boards/HistoryBoard.tsx'
import { MinutesBoard } from './boards/MinutesBoard.tsx'
import { NetworkBoard } from './boards/NetworkBoard.tsx'
import { PlanBoard } from './boards/PlanBoard.tsx'
import { ProfileBoard } from './boards/ProfileBoard.tsx'
import { SectionBoard } from './boards/SectionBoard.tsx'
import { SinceFrozen } from './SinceFrozen.tsx'
import { WallClock } from './WallClock.tsx'

const boards: Readonly<Record<BoardKind, Component>> = {
  plan: PlanBoard,
  section: SectionBoard,
  profile: ProfileBoard,
  history: HistoryBoard,
  change: ChangeBoard,
  exceedances: ExceedancesBoard,
  network: NetworkBoard,
  minutes: MinutesBoard,
}

/** What these show moves with the clock; what the others tell is of the cut-off. */
const withClock: ReadonlySet<BoardKind | undefined> = new Set(['plan', 'section', 'profile', 'history'])
const withPlan: ReadonlySet<BoardKind | undefined> = new Set(['plan', 'change'])

/** The board by its kind. There is one plan for all of them: it is hidden, never made anew. */
export function BoardShown() {
  const kind = () => shownBoard()?.kind
  return (
    <>
      <Show when={withClock.has(kind())}>
        <WallClock />
      </Show>
      <div class="board-room">
        <section class="wall-plan" aria-label="Site plan" hidden={!withPlan.has(kind())}>
          <PlanMap />
          <Show when={kind() === 'change' && planSurface()}>
            <div class="wall-surface-key">
              <SurfaceKey />
            </div>
          </Show>
        </section>
        <Show
          when={kind()}
          fallback={
            <p class="board-nothing">
              This meeting has no boards yet: put views on boards at the desk, under Meetings.
            </p>
          }
        >
          {(shown) => <Dynamic component={boards[shown()]} />}
        </Show>
      </div>
      <SinceFrozen />
    </>
  )
}
