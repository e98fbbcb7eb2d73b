import type { Outcome } from '#domain/outcome.ts'
import { type BatteryLife, batteryLifeBetween } from '#domain/power/battery-life.ts'
import { meanMicroamps, uplinkMillicoulombs } from '#domain/power/charge-budget.ts'
import { capacityShareAt } from '#domain/power/cold-derating.ts'
import { timeOnAirSeconds, usualFrame } from '#domain/radio/time-on-air.ts'

/** What a logger draws and what its cells hold, as the fields have it. All of it is to be replaced by measured figures. */
export interface BatteryDraft {
  readonly sleepMicroamps: number
  readonly sensors: number
  /** To excite and read one sensor once. */
  readonly sensorMillicoulombs: number
  readonly transmitMilliamps: number
  readonly receiveMilliamps: number
  readonly cellMilliampHours: number
  readonly usablePercent: number
  readonly selfDischargePercentPerYear: number
  readonly shelfLifeYears: number
  readonly coldestMonthDegC: number
  /** How wrong the mean current may be, either way. */
  readonly uncertainPercent: number
}

export const firstBatteryDraft: BatteryDraft = {
  sleepMicroamps: 15,
  sensors: 8,
  sensorMillicoulombs: 15,
  transmitMilliamps: 44,
  receiveMilliamps: 12,
  cellMilliampHours: 19_000,
  usablePercent: 70,
  selfDischargePercentPerYear: 2,
  shelfLifeYears: 10,
  coldestMonthDegC: 5,
  uncertainPercent: 25,
}

/** Two windows of a tenth of a second are open after each uplink. */
const windows = { windowSeconds: 0.1, windows: 2 }

export interface Sending {
  readonly intervalMinutes: number
  readonly spreadingFactor: number
  readonly payloadBytes: number
  readonly sendings: number
}

export function meanMicroampsOf(draft: BatteryDraft, sending: Sending): number {
  const readingsADay = 1440 / sending.intervalMinutes
  return meanMicroamps({
    sleepMicroamps: draft.sleepMicroamps,
    readingMillicoulombs: draft.sensors * draft.sensorMillicoulombs,
    readingsADay,
    uplinkMillicoulombs: uplinkOf(draft, sending),
    uplinksADay: readingsADay * sending.sendings,
  })
}

/** Charge of one uplink with the windows after it. */
export const uplinkOf = (draft: BatteryDraft, { spreadingFactor, payloadBytes }: Sending): number =>
  uplinkMillicoulombs(timeOnAirSeconds(usualFrame(spreadingFactor, payloadBytes)), { ...draft, ...windows })

interface LifeBetween {
  readonly low: BatteryLife
  readonly middle: BatteryLife
  readonly high: BatteryLife
}

/** Life of so many cells, from the greater to the smaller current. */
export function lifeOf(draft: BatteryDraft, cells: number, sending: Sending): Outcome<LifeBetween> {
  const share = capacityShareAt(draft.coldestMonthDegC)
  if (!share.ok) return share
  return batteryLifeBetween(
    {
      milliampHours: draft.cellMilliampHours,
      usableShare: draft.usablePercent / 100,
      selfDischargePerYear: draft.selfDischargePercentPerYear / 100,
      shelfLifeYears: draft.shelfLifeYears,
    },
    cells,
    meanMicroampsOf(draft, sending),
    share.value,
    draft.uncertainPercent / 100,
  )
}
