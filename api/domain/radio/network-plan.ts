import { assert } from '../assert.ts'
import { periodicSuccess, sendersAtLoad } from './aloha.ts'
import { onAirShare, shortestIntervalSeconds } from './duty-cycle.ts'
import { chanceOfRun, runNotExpected } from './run-of-losses.ts'
import { timeOnAirSeconds, usualFrame } from './time-on-air.ts'

/** Share of the loggers that send at a spreading factor; shares of a mix add up to 1. */
export interface FactorShare {
  readonly spreadingFactor: number
  readonly share: number
}

export interface NetworkDesign {
  readonly loggers: number
  readonly intervalSeconds: number
  readonly channels: number
  /** Everything after the radio's own header, the network's overhead included. */
  readonly payloadBytes: number
  readonly factors: readonly FactorShare[]
  /** How often a reading is sent, at times of their own; 1 or more. */
  readonly sendings: number
  /** Share of packets that the link delivers where nothing collides, 0 to 1: what coverage tests measure. */
  readonly linkShare: number
  /** Share of an hour that one sender may be on the air. */
  readonly dutyShare: number
}

export interface FactorLoad {
  readonly spreadingFactor: number
  readonly loggers: number
  readonly onAirSeconds: number
  /** Share of time that one logger is on the air, all its sendings counted. */
  readonly onAirShare: number
  readonly withinDuty: boolean
  readonly shortestIntervalSeconds: number
  /** Chance that a packet meets no other. */
  readonly packetSuccess: number
  /** Chance that a reading arrives: by any of its sendings, and over the link. */
  readonly readingSuccess: number
  readonly missedADayPerLogger: number
  /** Chance that in a day one logger misses six or more readings in a row. */
  readonly sixMissedInARow: number
  /** Losses in a row whose chance in thirty days is below 1 %. */
  readonly gapNotExpectedReadings: number
}

export interface NetworkLoad {
  readonly factors: readonly FactorLoad[]
  readonly readingsADay: number
  readonly missedADay: number
  /** Of all readings. */
  readonly readingSuccess: number
  /** Share of time that the busiest channel and factor is taken, packets added up. */
  readonly greatestLoad: number
}

/**
 * What a gateway's loggers do to each other when each sends on the whole interval of its own clock at a phase of its own, on
 * a channel drawn for each packet: exact for a finite number (each other sender meets a packet with probability 2·t / (T·c)
 * for each of its sendings), packets of one factor all equally long, factors taken as deaf to each other.
 */
export function planNetwork(design: NetworkDesign): NetworkLoad {
  const { loggers, intervalSeconds, channels, factors, sendings } = design
  assert(loggers >= 0 && intervalSeconds > 0 && channels >= 1 && sendings >= 1, JSON.stringify(design))
  const readingsADayPerLogger = 86_400 / intervalSeconds
  const loads = factors
    .filter(({ share }) => share > 0)
    .map(({ spreadingFactor, share }): FactorLoad => {
      const onAirSeconds = timeOnAirSeconds(usualFrame(spreadingFactor, design.payloadBytes))
      const here = loggers * share
      const { packetSuccess, readingSuccess } = successOf(design, here, onAirSeconds)
      const taken = onAirShare(onAirSeconds * sendings, intervalSeconds)
      return {
        spreadingFactor,
        loggers: here,
        onAirSeconds,
        onAirShare: taken,
        withinDuty: taken <= design.dutyShare,
        shortestIntervalSeconds: shortestIntervalSeconds(onAirSeconds * sendings, design.dutyShare),
        packetSuccess,
        readingSuccess,
        missedADayPerLogger: readingsADayPerLogger * (1 - readingSuccess),
        sixMissedInARow: chanceOfRun(Math.round(readingsADayPerLogger), 1 - readingSuccess, 6),
        gapNotExpectedReadings: runNotExpected(
          Math.round(30 * readingsADayPerLogger),
          1 - readingSuccess,
          0.01,
        ),
      }
    })
  const readingsADay = loggers * readingsADayPerLogger
  const missedADay = loads.reduce((sum, load) => sum + load.loggers * load.missedADayPerLogger, 0)
  return {
    factors: loads,
    readingsADay,
    missedADay,
    readingSuccess: readingShare(design),
    greatestLoad: Math.max(0, ...loads.map((load) => (load.loggers * load.onAirShare) / channels)),
  }
}

/** Share of all readings that arrive; 1 of none. `planNetwork` gives what stands behind it. */
export function readingShare(design: NetworkDesign): number {
  const shares = design.factors.filter(({ share }) => share > 0)
  const whole = shares.reduce((sum, { share }) => sum + share, 0)
  if (design.loggers === 0 || whole === 0) return 1
  return (
    shares.reduce((sum, { spreadingFactor, share }) => {
      const onAirSeconds = timeOnAirSeconds(usualFrame(spreadingFactor, design.payloadBytes))
      return sum + share * successOf(design, design.loggers * share, onAirSeconds).readingSuccess
    }, 0) / whole
  )
}

function successOf(
  { intervalSeconds, channels, sendings, linkShare }: NetworkDesign,
  loggers: number,
  onAirSeconds: number,
): { readonly packetSuccess: number; readonly readingSuccess: number } {
  const packetSuccess = periodicSuccess(loggers, onAirSeconds, intervalSeconds, channels, sendings)
  return { packetSuccess, readingSuccess: 1 - (1 - linkShare * packetSuccess) ** sendings }
}

/**
 * Most loggers with which readings at every factor of the mix still arrive with at least `wanted`; 0 where the link alone
 * delivers less, and no more than `most`.
 */
export function mostLoggers(design: NetworkDesign, wanted: number, most = 100_000): number {
  const airs = design.factors
    .filter(({ share }) => share > 0)
    .map(({ spreadingFactor, share }) => ({
      share,
      onAirSeconds: timeOnAirSeconds(usualFrame(spreadingFactor, design.payloadBytes)),
    }))
  const enough = (loggers: number) =>
    airs.every(
      ({ share, onAirSeconds }) => successOf(design, loggers * share, onAirSeconds).readingSuccess >= wanted,
    )
  if (!enough(1)) return 0
  let [low, high] = [1, most]
  if (enough(most)) return most
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if (enough(middle)) low = middle
    else high = middle
  }
  return low
}

/**
 * The same for very many, by pure ALOHA: most loggers of a mix whose load stays at or below `load` at every factor. What
 * to plan with on paper; on the side of caution beside `mostLoggers`.
 */
export function mostSendersOfMix(
  design: Pick<NetworkDesign, 'intervalSeconds' | 'payloadBytes' | 'channels' | 'sendings' | 'factors'>,
  load: number,
): number {
  return Math.min(
    ...design.factors
      .filter(({ share }) => share > 0)
      .map(({ spreadingFactor, share }) =>
        sendersAtLoad(
          load / share,
          design.sendings * timeOnAirSeconds(usualFrame(spreadingFactor, design.payloadBytes)),
          design.intervalSeconds,
          design.channels,
        ),
      ),
  )
}
