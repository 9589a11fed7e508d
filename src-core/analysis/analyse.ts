/**
 * One pure call from a job and one of its setups to everything that is known about it. Nothing is kept in the job;
 * the same job gives the same result.
 */
import { afterCutFinding } from '../checks/afterCut.ts'
import { boldDoubtFindings } from '../checks/boldDoubts.ts'
import { boreWallFindings } from '../checks/boreWall.ts'
import { piecesFindings } from '../checks/partPieces.ts'
import { footBoltFindings } from '../checks/footBolts.ts'
import { shelfFindings } from '../checks/shelves.ts'
import { pieceMassFindings, plateMassFindings } from '../checks/pieceMasses.ts'
import { axisFindings, breakthroughFindings } from '../clearance/breakthrough.ts'
import { contactFindings } from '../holding/contactFindings.ts'
import { clampStates } from '../holding/clampState.ts'
import { holdingCheck } from '../holding/holdingCheck.ts'
import { clashFindings } from '../clearance/clashes.ts'
import { behindFindings } from '../clearance/behindPlate.ts'
import { carriageUnknown, reachFindings } from '../clearance/carriage.ts'
import { clearanceFindings, clearances } from '../clearance/clearance.ts'
import { sweptThings } from '../clearance/swept.ts'
import { tailstockFindings } from '../clearance/tailstock.ts'
import { worstFirst, finding } from '../findings/finding.ts'
import { partInToolPath } from '../clearance/partInToolPath.ts'
import { toolPathFindings } from '../clearance/toolPath.ts'
import { boreFindings, densityFindings, overlapFindings } from '../checks/partDoubts.ts'
import { byHand, byHandFindings } from '../checks/byHand.ts'
import { machineWeightFindings } from '../checks/machineWeight.ts'
import { screwedNoseFindings } from '../checks/nose.ts'
import { bearingMoment, noseFindings, ratingFindings } from '../checks/rating.ts'
import { cuttingAdvice } from '../cutting/advice.ts'
import { cuttingFindings } from '../cutting/findings.ts'
import { upperBound } from '../doubt/bound.ts'
import { uncertaintiesOf } from '../doubt/defaults.ts'
import { directionOf } from '../geometry/angles.ts'
import type { Point } from '../geometry/types.ts'
import { bodyFaults } from '../job/faults.ts'
import { isPrism, type Job } from '../job/schema.ts'
import { speedsToLookAt } from '../job/spindle.ts'
import { centreOfMass } from '../mass/massMoments.ts'
import { mountSetup } from '../mounting/mount.ts'
import type { Mounted } from '../mounting/types.ts'
import { assemble, type Assembly } from '../unbalance/assembly.ts'
import type { Analysis } from './result.ts'
import type { Finding } from '../findings/finding.ts'
import type { PartMass, PartSummary } from '../mass/part.ts'
import type { Unbalance } from '../unbalance/assembly.ts'
import { formatter } from '../units/format.ts'
import { chosenVerdict } from '../verdict/chosen.ts'
import { ceilingsOf, fastestLeft, speedLimits } from '../verdict/limits.ts'
import { speedFindings } from '../verdict/speedFindings.ts'
import { toolSpeedFindings } from '../verdict/toolSpeed.ts'
import { judgementOf, speedRow, speedsToShow, verdictAt } from '../verdict/speeds.ts'

/** Analyses a setup of a job that has passed `parseJob`. Throws RangeError on an unknown setup. */
export const analyse = (job: Job, setupId: string): Analysis => analyseMounted(mountSetup(job, setupId))

/** The same of a setup that is mounted already. */
export function analyseMounted(mounted: Mounted): Analysis {
  const { job, setup, workBore } = mounted
  const doubt = uncertaintiesOf(job)
  const assembly = assemble(mounted, doubt)
  const unbalance = unbalanceOf(assembly)
  const mass = assembly.total.m
  const speeds = speedsToShow(speedsToLookAt(job.lathe), setup)
  const cutting = cuttingAdvice(mounted)
  const states = clampStates(mounted)
  const holding = holdingCheck({ mounted, assembly, cutting, states })
  const limits = speedLimits({
    job,
    setup,
    mass,
    unbalance,
    holding: { rpm: holding.rpmAt2, known: holding.rpmAt2Known },
  })
  const swept = sweptThings(mounted)
  const clearanceList = clearances(mounted, swept)
  const centre = centreOfMass(assembly.total)
  const moment = bearingMoment(job.lathe, mass, centre.z)
  const hand = byHand(mounted, assembly)
  const places = [
    ...clearanceFindings(mounted, clearanceList, swept),
    ...carriageUnknown(mounted, swept),
    ...reachFindings(mounted),
    ...behindFindings(mounted),
    ...soundOutlines(mounted, (sound) => [
      ...clashFindings(sound),
      ...shelfFindings(sound),
      ...footBoltFindings(sound),
      ...breakthroughFindings(sound),
      ...tailstockFindings(sound),
      ...overlapFindings(sound),
      ...piecesFindings(sound),
      ...boreWallFindings(sound),
      ...partInToolPath(sound),
    ]),
    ...axisFindings(mounted),
    ...toolPathFindings(mounted),
  ]
  const others = [
    ...contactFindings(mounted, states),
    ...holding.findings,
    ...cuttingFindings(mounted, cutting),
    ...ratingFindings(job, setup),
    ...byHandFindings(mounted, hand, mass),
    ...machineWeightFindings(job, setup.speed, unbalance),
    ...screwedNoseFindings(job, setup.speed, assembly.zz),
    ...noseFindings(job, setup, mass, moment, unbalance.couple_g_mm2),
    ...densityFindings(job, assembly.part),
    ...boreFindings(mounted),
    ...pieceMassFindings(mounted),
    ...plateMassFindings(job),
    ...boldDoubtFindings(job),
    ...afterCutFinding(job, setup, mass, unbalance),
  ]
  const ceilings = ceilingsOf(limits, [...places, ...others])
  const fastest = fastestLeft(ceilings, [...places, ...others])
  const speedy = speedFindings({ job, setup, mass, unbalance, limits, ceilings, fastest })
  const judged = [...places, ...speedy, ...others]
  const tools = toolSpeedFindings(mounted, cutting, judgementOf(limits, judged))
  const findings = worstFirst([...judged, ...tools], setup.speed)
  const judgement = judgementOf(limits, findings)
  const input = {
    unbalance: unbalance.static_g_mm,
    upper95: unbalance.upper95_g_mm,
    couple: unbalance.couple_g_mm2,
    mass,
    boreDiameter: workBore?.bore.diameter ?? null,
  }
  const factor = holding.clamping?.factor ?? null
  const rows = speeds.map((rpm) =>
    speedRow(rpm, { ...input, clampFactor: rpm === setup.speed ? factor : null }, verdictAt(rpm, judgement)),
  )
  return {
    setup: setup.id,
    chosen_rpm: setup.speed,
    part: partSummary(job, assembly.part),
    assembly: {
      mass_kg: mass,
      // The bare plate's residual shifts its centre of mass, so the total's follows the unbalance vector.
      centroid_mm: [
        assembly.unbalance.x / 1000 / mass,
        assembly.unbalance.y / 1000 / mass,
        centre.z,
      ] as const,
      inertia_kg_mm2: { zz: assembly.zz, xz: assembly.total.xz, yz: assembly.total.yz },
      bearing_moment_N_m: moment,
      eccentricity_um: unbalance.static_g_mm / mass,
    },
    unbalance,
    covariance: assembly.covariance,
    after_cut_angle_deg: directionOf(assembly.unbalanceAfterCut),
    terms: assembly.terms,
    speeds: rows,
    verdict: chosenVerdict(setup.speed, judgement, formatter(job.displayUnits)),
    ceiling: judgement.ceilings.bound,
    ceilingBestEstimate: judgement.ceilings.best,
    limits,
    clearances: clearanceList,
    joints: holding.joints,
    clamping: holding.clamping,
    by_hand: hand,
    let_go: holding.letGo,
    cutting,
    findings,
  }
}

function unbalanceOf(a: Assembly): Unbalance {
  const size = (v: Point) => Math.hypot(v.x, v.y)
  return {
    static_g_mm: size(a.unbalance),
    static_angle_deg: directionOf(a.unbalance),
    couple_g_mm2: size(a.couple),
    couple_angle_deg: directionOf(a.couple),
    upper95_g_mm: upperBound(a.unbalance, a.covariance),
    after_cut_g_mm: size(a.unbalanceAfterCut),
  }
}

function partSummary(job: Job, mass: PartMass): PartSummary {
  const centre = centreOfMass(mass.moments)
  return {
    area_mm2: mass.area,
    volume_mm3: mass.volume,
    mass_kg: mass.moments.m,
    centroid_mm: [centre.x, centre.y, centre.z],
    computed_mass_kg: mass.computedMass,
    implied_density_kg_m3: job.part.weighedMass === null ? null : job.part.density * mass.scale,
  }
}

/** Polygon checks need sound outlines; while one is being drawn badly they are not made, and that is said. */
function soundOutlines(mounted: Mounted, check: (mounted: Mounted) => Finding[]): Finding[] {
  const bad = mounted.job.part.bodies.find((b) => isPrism(b) && bodyFaults(b).length > 0)
  if (!bad) return check(mounted)
  const message = `The outline of body ${bad.id} is faulty, so clashes were not checked and its mass means little. Mend the outline first.`
  return [finding('stop', 'outline-fault', bad.id, message)]
}
