import { createSignal } from 'solid-js'
import type { ProfileAxis } from '../views/depth-profile/profile-from-site.ts'

/** The ways in which the profile of a casing is looked at; the first is the usual one. */
export const profileAxes = ['a', 'b', 'east', 'north'] as const satisfies readonly ProfileAxis[]

const [profileAxis, lookAlong] = createSignal<ProfileAxis>(profileAxes[0])
const [stressShown, showStress] = createSignal(true)

/** The axis that profiles of casings are looked at along, and whether effective stress is drawn beside pressures. */
export { lookAlong, profileAxis, showStress, stressShown }
