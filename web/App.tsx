import { createSignal, onCleanup, Show } from 'solid-js'
import { AlertsBanner } from './panels/AlertsBanner.tsx'
import { LinkBanner } from './panels/access/LinkBanner.tsx'
import { Cautions } from './panels/Cautions.tsx'
import { ClockBar } from './panels/ClockBar.tsx'
import { ConnectionBanner } from './panels/ConnectionBanner.tsx'
import { FrozenBanner } from './panels/FrozenBanner.tsx'
import { GridSheet } from './panels/GridSheet.tsx'
import { KeySheet } from './panels/KeySheet.tsx'
import { Notices } from './panels/Notices.tsx'
import { PlanKey } from './panels/PlanKey.tsx'
import { PublishingBanner } from './panels/PublishingBanner.tsx'
import { SideSheet } from './panels/SideSheet.tsx'
import { SkipLinks } from './panels/SkipLinks.tsx'
import { TitleBlock } from './panels/TitleBlock.tsx'
import { listenForKeys } from './settings/listen-for-keys.ts'
import { startPage } from './settings/start-page.ts'
import { reportTrouble } from './state/notices.ts'
import { isOnWall } from './state/on-wall.ts'
import { accessWanted } from './state/own-account.ts'
import { sheetStanding } from './state/sheet.ts'
import { announceIn } from './ui/announce.ts'
import { Later } from './ui/Later.tsx'
import { PlanMap } from './views/plan-map/PlanMap.tsx'

/** The page: a drawing sheet at a desk, or the boards of a meeting on a wall; and what stands over either. */
export function App() {
  startPage()
  return (
    <>
      <Show when={isOnWall()} fallback={<DrawingSheet />}>
        <Later
          load={() => import('./settings/wall/WallPage.tsx').then(({ WallPage }) => WallPage)}
          when={true}
          waiting="Opening the meeting …"
          failed={(cause) => reportTrouble({ cause, retry: () => location.reload() })}
        />
      </Show>
      <Notices />
      <Show when={accessWanted()}>
        <Later
          load={() => import('./panels/access/AccessSheet.tsx').then(({ AccessSheet }) => AccessSheet)}
          when={true}
          waiting=""
          failed={(cause) => reportTrouble({ cause, retry: () => location.reload() })}
        />
      </Show>
      <div class="visually-hidden" aria-live="polite" ref={announceIn} />
    </>
  )
}

/** Title block, plan, side sheet, clock. */
function DrawingSheet() {
  const [keysOpen, setKeysOpen] = createSignal(false)
  const [gridOpen, setGridOpen] = createSignal(false)
  onCleanup(listenForKeys(() => setKeysOpen(true)))
  return (
    <>
      <SkipLinks />
      <ConnectionBanner />
      <LinkBanner />
      <FrozenBanner />
      <AlertsBanner />
      <div class="page" data-sheet={sheetStanding()}>
        <TitleBlock askForKeys={() => setKeysOpen(true)} askForGrid={() => setGridOpen(true)} />
        <main class="plan" id="plan" aria-label="Site plan">
          <PlanMap />
          <PlanKey />
          <PublishingBanner />
        </main>
        <SideSheet />
        <ClockBar />
        <Cautions />
      </div>
      <GridSheet open={gridOpen()} closed={() => setGridOpen(false)} />
      <KeySheet open={keysOpen()} closed={() => setKeysOpen(false)} />
    </>
  )
}
