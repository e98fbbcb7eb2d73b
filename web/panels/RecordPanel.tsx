import { createSignal, Show } from 'solid-js'
import type { CalibrationList } from '#contract/calibration-draft.ts'
import { reportTrouble } from '../state/notices.ts'
import { selectedInstrument, selectedSeries } from '../state/selection.ts'
import { openSheet } from '../state/sheet.ts'
import { siteDocument, siteLookup } from '../state/site-document.ts'
import { measureNames } from '../ui/kind-names.ts'
import { Later } from '../ui/Later.tsx'
import { sync } from '../ui/sync.ts'
import { AlignmentPlaces } from './AlignmentPlaces.tsx'
import { ApprovalOf } from './ApprovalOf.tsx'
import type { AirShareProposal } from './air-share-draft.ts'
import { RecordAlerts } from './alerts/RecordAlerts.tsx'
import { RecordHistory } from './audit/RecordHistory.tsx'
import { BarometricEfficiency } from './BarometricEfficiency.tsx'
import { CalibrationsOf } from './CalibrationsOf.tsx'
import { InstrumentFacts } from './InstrumentFacts.tsx'
import { LevelsOfSeries } from './LevelsOfSeries.tsx'
import { PointTable } from './PointTable.tsx'
import { ReadingRemarks } from './ReadingRemarks.tsx'
import { TraverseOf } from './TraverseOf.tsx'
import { ValueTrail } from './ValueTrail.tsx'
import { VerdictRemarks } from './VerdictRemarks.tsx'

/** The record of an instrument: what it is, its levels, and how the value at the clock was computed. */
export function RecordPanel() {
  const series = () => selectedSeries()[0] ?? null
  const levels = () => (siteDocument()?.triggerLevels ?? []).filter((level) => level.series === series()?.id)
  const [calibrations, setCalibrations] = createSignal<CalibrationList | null>(null)
  const [proposed, setProposed] = createSignal<AirShareProposal | null>(null)
  sync(
    () => series()?.id,
    () => setProposed(null),
  )
  const points = () => {
    const { pointById } = siteLookup()
    return (selectedInstrument()?.points ?? []).flatMap((id) => pointById.get(id) ?? [])
  }
  return (
    <Show
      when={selectedInstrument()}
      fallback={<p class="waiting">Select an instrument to see its record.</p>}
    >
      {(instrument) => (
        <div class="record">
          <InstrumentFacts instrument={instrument()} series={series()} />
          <PointTable points={points()} />
          <AlignmentPlaces points={points()} />
          <RecordHistory
            of="this instrument and its points"
            records={[
              { kind: 'instruments', keys: [instrument().id] },
              { kind: 'points', keys: instrument().points },
            ]}
          />
          <ApprovalOf instrument={instrument().id} />
          <Later
            when={true}
            load={async () => (await import('./field/EntriesAbout.tsx')).EntriesAbout}
            waiting="Fetching what was written along the works …"
            failed={(cause) => reportTrouble({ cause })}
          />
          <Later
            when={true}
            load={async () => (await import('./meetings/MinutesAbout.tsx')).MinutesAbout}
            waiting="Fetching what meetings wrote down …"
            failed={(cause) => reportTrouble({ cause })}
          />
          <VerdictRemarks
            about={(id) => selectedSeries().some((one) => one.id === id)}
            effects={['flag readings', 're-zero', 'replace the instrument', 'visit ordered']}
          />
          <RecordAlerts />
          <VerdictRemarks
            about={(id) => selectedSeries().some((one) => one.id === id)}
            effects={['level to be reviewed']}
          />
          <Show when={levels().length > 0}>
            <LevelsOfSeries
              series={series()}
              levels={levels()}
              cautions={calibrations()?.levelCautions ?? []}
            />
            <div class="buttons">
              <button type="button" onClick={() => openSheet('levels')}>
                All levels, and changes of them
              </button>
            </div>
            <RecordHistory
              of="these trigger levels"
              records={[{ kind: 'triggerLevels', keys: levels().map(({ id }) => id) }]}
            />
          </Show>
          <Show when={series()} fallback={<p>It has no series of engineering values.</p>}>
            {(chosen) => (
              <>
                <ValueTrail
                  id={chosen().id}
                  name={`${chosen().point}, ${measureNames[chosen().measure].toLowerCase()}`}
                />
                <Show when={instrument().kind === 'traversed-inclinometer'}>
                  <TraverseOf instrument={instrument()} />
                </Show>
                <ReadingRemarks series={chosen()} />
                <BarometricEfficiency
                  series={chosen()}
                  kind={instrument().kind}
                  calibrations={calibrations()}
                  propose={setProposed}
                />
                <CalibrationsOf series={chosen()} listed={setCalibrations} proposed={proposed()} />
              </>
            )}
          </Show>
        </div>
      )}
    </Show>
  )
}
