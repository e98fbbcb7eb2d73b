/** Bits of a value's quality, combined by addition. 0: nothing to say. */
export const quality = {
  /** No earlier barometer reading within its stated maximum age: value is null. */
  barometerMissing: 1,
  /** No companion temperature: value stands without its thermal term. */
  temperatureMissing: 2,
  /** Outside the sensor's stated range; kept. */
  outOfRange: 4,
  /** Received long after it was taken (back-fill). */
  receivedLate: 8,
  /** No calibration was valid at that instant: value is null. */
  noCalibration: 16,
  /** Made from fewer members than it should be (a dead gauge, a missing segment). */
  incomplete: 32,
  /** The reading has no engineering value by its formula (a resistance of 0, a wire that did not ring): value is null. */
  notComputable: 64,
  /** The reading is one that only a broken, open or shorted sensor or loop gives: value is null. */
  sensorFault: 128,
} as const

export type QualityBit = keyof typeof quality

const meanings: Readonly<Record<QualityBit, string>> = {
  barometerMissing: 'No barometer reading within its maximum age; no value was made.',
  temperatureMissing: 'No temperature at that instant; the value stands without its thermal term.',
  outOfRange: "Outside the sensor's stated range.",
  receivedLate: 'Received long after it was taken.',
  noCalibration: 'No calibration was in force at that instant; no value was made.',
  incomplete: 'Made from fewer members than it should be, or not made because one was missing.',
  notComputable: 'The reading has no engineering value by its formula; no value was made.',
  sensorFault: 'The reading is that of a fault of the sensor, its cable or its loop; no value was made.',
}

/** One sentence for each bit that is set, in the order of the bits. */
export const qualitySentences = (bits: number): readonly string[] =>
  (Object.keys(quality) as QualityBit[])
    .filter((name) => (bits & quality[name]) !== 0)
    .map((name) => meanings[name])
