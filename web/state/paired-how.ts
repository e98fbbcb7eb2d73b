import { createSignal } from 'solid-js'

export const pairedBy = ['nearest', 'hour', 'day'] as const
export const pairedAges = [15, 60, 360, 1440] as const

/** How readings of two series are brought together to be drawn against each other. */
export interface PairedHow {
  readonly by: (typeof pairedBy)[number]
  /** Of nearest readings: no farther apart than this. */
  readonly mostApartMinutes: number
  /** The one that is drawn up is read so much later than the one across; below 0: earlier. */
  readonly lagHours: number
}

export const firstPairing: PairedHow = { by: 'day', mostApartMinutes: 60, lagHours: 0 }

const [pairedHow, setPairedHow] = createSignal<PairedHow>(firstPairing)

export { pairedHow }

export function pairBy(change: Partial<PairedHow>): void {
  setPairedHow((now) => ({ ...now, ...change }))
}

/** As the address carries it: `nearest:60:-6`. */
export const writePairing = ({ by, mostApartMinutes, lagHours }: PairedHow): string =>
  `${by}:${mostApartMinutes}:${lagHours}`

export function readPairing(text: string | null): PairedHow {
  const [by, age, lag] = (text ?? '').split(':')
  const lagHours = Number(lag)
  return {
    by: pairedBy.find((one) => one === by) ?? firstPairing.by,
    mostApartMinutes: pairedAges.find((one) => String(one) === age) ?? firstPairing.mostApartMinutes,
    lagHours: lag && Number.isFinite(lagHours) && Math.abs(lagHours) <= 720 ? lagHours : 0,
  }
}
