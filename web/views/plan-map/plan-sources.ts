/** Our layers go below this one, so that names of measuring points stay readable above them. */
export const namesLayer = 'point-names'

/** Names of points at a trigger level, which take their places before any other. */
export const levelNamesLayer = 'point-names-at-level'

/** What the drawing is fed from: works, names of measuring points, pumped wells. */
export const worksSource = 'works'

export const namesSource = 'names'

export const wellsSource = 'wells'

/** Image without colour that `roomLayer` needs; one pixel. */
export const roomImage = 'room'
