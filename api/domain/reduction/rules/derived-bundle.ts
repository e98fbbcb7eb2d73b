import type { Measure } from '../../site/vocabulary.ts'
import type { FixedEnd } from '../cumulative-deflection.ts'
import type { ColumnLiquid } from '../liquid-density.ts'
import type { StudLengths } from '../three-studs.ts'

/** A slot's share of a combination. */
export interface Term {
  /** Index into the bundle's slots. */
  readonly slot: number
  readonly weight: number
}

/** constant + Σ weight · slot, in the unit of its output; every slot of it is required. */
export interface Combination {
  readonly constant: number
  readonly terms: readonly Term[]
  /** What the sum is, in words, for its trail. */
  readonly says: string
  /** In symbols. */
  readonly formula: string
}

/**
 * `mean`: of the members that have a value; `cumulative`: sums from the still end; `combination`: constants plus
 * weighted sums; `resultant`: root of the sum of squares; `thermal-split`: share of warmth in a mean force, and the rest;
 * `structure-line`: distortion of a line of settled points at
 * growing chainages, a slot each; `three-studs`: movement of a crack from three lengths; `liquid-column`: settlement of a
 * cell below its reservoir.
 */
export type DerivedRule =
  | { readonly kind: 'mean' }
  | { readonly kind: 'cumulative'; readonly fixedEnd: FixedEnd }
  | {
      readonly kind: 'combination'
      readonly combinations: readonly Combination[]
      /** Those of which output `whole` is the greatest in magnitude; left out: there is no such output. */
      readonly greatestOf?: readonly number[]
    }
  | { readonly kind: 'resultant' }
  | {
      readonly kind: 'thermal-split'
      readonly gauges: number
      readonly factorKnPerKelvin: number
      readonly referenceDegC: number
    }
  | { readonly kind: 'structure-line'; readonly chainagesMetres: readonly number[] }
  | { readonly kind: 'three-studs'; readonly zero: StudLengths }
  | {
      readonly kind: 'liquid-column'
      readonly zeroPressureKpa: number
      readonly zeroTemperatureDegC: number
      readonly liquid: ColumnLiquid
    }

/** One place in an instrument and the series that have measured there, the first one first, replacements after it. */
export interface DerivedSlot {
  readonly point: string
  readonly depthMetres: number
  readonly series: readonly string[]
  /**
   * Null: read at the instant itself. Else its last value at or before the instant is taken, up to this age:
   * surveys are far rarer than readings.
   */
  readonly maximumAgeMinutes: number | null
}

/** A series made from the members of an instrument. */
export interface DerivedOutput {
  /** Series id: instrument/measure, or point/measure for one place of a profile. */
  readonly id: string
  /** Measuring point or instrument that carries it. */
  readonly point: string
  readonly measure: Measure
  readonly unit: string
  readonly decimals: number
  /** What positive means, where it is not what the instrument says of its readings. */
  readonly positiveMeans: string | null
  /** `whole`: of all slots, or the greatest of some combinations; a number: the slot, or for a combination its index, from 0. */
  readonly of: 'whole' | number
}

/** What tells faults of a whole traverse: one entry an interval, from the top down. */
export interface TraverseCheck {
  readonly zeroDeviationsMm: readonly number[]
  /** The same survey along the other axis; null where it is not stated: then a turned sensor axis cannot be told. */
  readonly acrossZeroDeviationsMm: readonly number[] | null
  readonly lengthsMetres: readonly number[]
  /** Intervals taken to stand still, from 0. */
  readonly still: readonly number[]
  readonly stillBelowMetres: number
}

/** A structure taken as a deep beam between the ends of a line through it. */
export interface StructureBeam {
  readonly lengthMetres: number
  readonly heightMetres: number
  /** Young's modulus over shear modulus. */
  readonly stiffnessRatio: number
}

/** What an instrument's members become, at each instant at which any of them was read. */
export interface DerivedBundle {
  readonly instrument: string
  readonly rule: DerivedRule
  /** From the top down; those of surveys last. */
  readonly slots: readonly DerivedSlot[]
  readonly outputs: readonly DerivedOutput[]
  /** Of its members: the longest, the most patient. */
  readonly intervalMinutes: number
  readonly lateAfterMinutes: number
  /** Of a traversed inclinometer that states where its casing stands still. */
  readonly traverse?: TraverseCheck
  /** Of a line through a structure whose height is stated. */
  readonly structure?: StructureBeam
}

/** What a member has at an instant. */
export interface MemberValue {
  readonly value: number | null
  /** Bits of `quality`. */
  readonly quality: number
}
