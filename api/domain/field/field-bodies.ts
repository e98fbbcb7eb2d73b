import type { InstrumentKind, Measure, StepKind } from '../site/vocabulary.ts'

/** A value read by hand, in the raw unit of its sensor. */
export interface ReadingBody {
  readonly kind: 'reading'
  /** Sensor id, point/measure. */
  readonly sensor: string
  readonly atEpochMs: number
  readonly raw: number
  /** Why it was kept although the entry check doubted it; null where it did not. */
  readonly confirmedBecause: string | null
}

export interface NoteBody {
  readonly kind: 'note' | 'damage'
  /** Instrument, measuring point or logger that it is about; null: a place only. */
  readonly about: string | null
  readonly atEpochMs: number
  readonly text: string
}

/** One spreading factor of a coverage test. */
export interface PacketsOfFactor {
  /** 7 to 12. */
  readonly spreadingFactor: number
  readonly sent: number
  /** Null: not known yet, until the receiver's record comes. */
  readonly received: number | null
  readonly signalDbm: number | null
}

export interface CoverageTestBody {
  readonly kind: 'coverage-test'
  /** Test number, by which the receiver's record is found. */
  readonly test: string
  readonly atEpochMs: number
  readonly mode: 'with-internet' | 'without-internet'
  readonly logger: string | null
  readonly eastingMetres: number
  readonly northingMetres: number
  readonly accuracyMetres: number
  readonly factors: readonly PacketsOfFactor[]
}

/** What the receiver recorded of a test that was made without internet. */
export interface ReceiverRecordBody {
  readonly kind: 'receiver-record'
  readonly test: string
  readonly factors: readonly {
    readonly spreadingFactor: number
    readonly received: number
    readonly signalDbm: number | null
  }[]
}

export interface CertificateDraft {
  readonly number: string
  /** Serial number as it stands on the certificate; it must be that of the sensor. */
  readonly serial: string
  readonly calibratedAtEpochMs: number
  readonly dueAtEpochMs: number | null
  /** Engineering unit of the sensor. */
  readonly standardUncertainty: number
  readonly steps: readonly { readonly kind: StepKind; readonly parameters: string }[]
}

export interface ZeroReadingDraft {
  readonly atEpochMs: number
  /** Raw unit of the sensor; null: not read yet. */
  readonly raw: number | null
  readonly temperatureDegC: number | null
  readonly barometerKpa: number | null
}

export interface SensorDraft {
  readonly measure: Measure
  readonly serial: string
  readonly rawUnit: string
  readonly unit: string
  readonly rangeLow: number | null
  readonly rangeHigh: number | null
  readonly intervalMinutes: number
  /** Sensor that gives the air pressure for a barometric term; null: none. */
  readonly barometer: string | null
  readonly certificate: CertificateDraft | null
  readonly zeroReadings: readonly ZeroReadingDraft[]
  readonly wiring: { readonly logger: string; readonly channel: string } | null
}

export interface PointDraft {
  readonly id: string
  /** Along the hole from its collar. */
  readonly depthMetres: number
  readonly gaugeLengthMetres: number | null
  readonly intakeTopLevelMetres: number | null
  readonly intakeBaseLevelMetres: number | null
  readonly stratum: string | null
  readonly sensors: readonly SensorDraft[]
}

/** An instrument as it was put in. Levels on the site's datum, eastings and northings on its grid. */
export interface InstallationBody {
  readonly kind: 'installation'
  readonly instrument: string
  readonly instrumentKind: InstrumentKind
  readonly replaces: string | null
  readonly eastingMetres: number | null
  readonly northingMetres: number | null
  readonly collarLevelMetres: number | null
  readonly surveyedAtEpochMs: number | null
  readonly surveyedBy: string
  /** From grid north, clockwise. */
  readonly azimuthDegrees: number | null
  /** Below horizontal; 90 is straight down. */
  readonly dipDegrees: number | null
  readonly lengthMetres: number | null
  readonly axisBearingDegrees: number | null
  readonly positiveMeans: string
  readonly fixedEnd: 'toe' | 'head' | 'deepest-anchor' | 'none' | 'surveyed-head' | null
  readonly installedAtEpochMs: number
  readonly critical: boolean
  readonly grout: string
  readonly points: readonly PointDraft[]
}

/** A second person looked at an installation as recorded. */
export interface SecondCheckBody {
  readonly kind: 'second-check'
  readonly instrument: string
  /** Id of the entry that was checked; a later one needs a check of its own. */
  readonly entry: string
  readonly agreed: boolean
  readonly found: string
}

/** What was found at a step, by the names that the step declares. */
export type Evidence = Readonly<Record<string, string | number | boolean | null>>

export interface CommissioningStepBody {
  readonly kind: 'commissioning-step'
  readonly logger: string
  /** UUID of this commissioning: a logger may be commissioned again. */
  readonly commissioning: string
  readonly step: string
  readonly outcome: 'done' | 'not-passed' | 'skipped'
  /** Why it was skipped, or what did not pass; empty for what was done. */
  readonly reason: string
  readonly evidence: Evidence
}

export interface CommissioningSignatureBody {
  readonly kind: 'commissioning-signature'
  readonly logger: string
  readonly commissioning: string
  /** Entries of the steps that are signed, so that a later change shows as unsigned. */
  readonly entries: readonly string[]
  readonly statement: string
}

/** A logger's memory taken by cable; the file is the entry's one attachment. */
export interface MemoryFileBody {
  readonly kind: 'memory-file'
  readonly logger: string
  readonly fileName: string
  readonly takenAtEpochMs: number
}

/** Which of the entries that stand side by side holds. It follows all of them, and says why. */
export interface ResolutionBody {
  readonly kind: 'resolution'
  /** Subject of the entries. */
  readonly subject: string
  readonly chosen: string
  readonly reason: string
}

export type FieldBody =
  | ReadingBody
  | NoteBody
  | CoverageTestBody
  | ReceiverRecordBody
  | InstallationBody
  | SecondCheckBody
  | CommissioningStepBody
  | CommissioningSignatureBody
  | MemoryFileBody
  | ResolutionBody
