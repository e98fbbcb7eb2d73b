import {
  alohaSuccess,
  alohaThroughput,
  loadForSuccess,
  loadOfMostThroughput,
  periodicSuccess,
  sendersAtLoad,
} from '#domain/radio/aloha.ts'
import { packetsPerHour, shortestIntervalSeconds } from '#domain/radio/duty-cycle.ts'
import { mostSendersOfMix } from '#domain/radio/network-plan.ts'
import { networkOverheadBytes, timeOnAirSeconds, usualFrame } from '#domain/radio/time-on-air.ts'
import type { PublishedInputs, PublishedTable } from '../published-row.ts'
import { networkPlanRows } from './rows.ts'

const milliseconds = (factor: number, bytes: number) => 1000 * timeOnAirSeconds(usualFrame(factor, bytes))
const usual = ({ SF, payload_B }: PublishedInputs) =>
  payload_B.map((bytes: number) => milliseconds(SF, bytes))
const factors = [7, 8, 9, 10, 11, 12]

export const networkPlan: PublishedTable = {
  area: 'network plan',
  rows: networkPlanRows,
  computed: {
    'LRA-01': usual,
    'LRA-02': usual,
    'LRA-03': usual,
    'LRA-04': usual,
    'LRA-05': usual,
    'LRA-06': usual,
    'LRA-07': ({ SF, app_B }) =>
      SF.map((factor: number) =>
        app_B.map((bytes: number) => milliseconds(factor, bytes + networkOverheadBytes)),
      ),
    'LRA-08': ({ rows }) =>
      rows.map(
        ([bytes, spreadingFactor, bandwidthHz, codingRate, implicit, preambleSymbols, optimised]: number[]) =>
          timeOnAirSeconds({
            spreadingFactor: spreadingFactor as number,
            bandwidthHz: bandwidthHz as number,
            payloadBytes: bytes as number,
            codingRate: codingRate as number,
            preambleSymbols: preambleSymbols as number,
            explicitHeader: implicit === 0,
            checksum: true,
            lowRateOptimised: optimised === 1,
          }),
      ),
    'LRA-12': ({ duty, payload_B }) =>
      factors.map((factor) => shortestIntervalSeconds(timeOnAirSeconds(usualFrame(factor, payload_B)), duty)),
    'LRA-13': ({ payload_B, SF }) => {
      const of = (share: number) =>
        SF.map((factor: number) => packetsPerHour(timeOnAirSeconds(usualFrame(factor, payload_B)), share))
      return { '1%': of(0.01), '0.1%': of(0.001) }
    },
    'LRA-15': ({ G }) => ({
      S: G.map(alohaThroughput),
      P: G.map(alohaSuccess),
      Smax: alohaThroughput(loadOfMostThroughput),
    }),
    'LRA-16': ({ interval_s, payload_B }) => {
      const at = (load: number) =>
        factors.map((factor) =>
          sendersAtLoad(load, timeOnAirSeconds(usualFrame(factor, payload_B)), interval_s, 1),
        )
      return {
        P90: at(loadForSuccess(0.9)),
        P99: at(loadForSuccess(0.99)),
        Gmax: at(loadOfMostThroughput),
      }
    },
    'LRA-17': ({ interval_s, payload_B, channels }) =>
      mostSendersOfMix(
        {
          intervalSeconds: interval_s,
          payloadBytes: payload_B,
          channels,
          sendings: 1,
          factors: factors.map((spreadingFactor) => ({ spreadingFactor, share: 1 / 6 })),
        },
        loadForSuccess(0.9),
      ),
    'LRA-18': ({ ToA_s, T_s, N }) => periodicSuccess(N, ToA_s, T_s, 1),
  },
}
