package synth

import "math"

// wire is a string as it is bought and strung: what it is made of decides how it dies away.
//
// A partial at ω radians a second loses energy three ways inside the string (Woodhouse, "On the
// synthesis of guitar plucks", Acta Acustica united with Acustica 90, 2004, equation 8; the loss factor
// η is twice the decay rate σ over ω):
//
//	η = ηF + ηA/ω + ηB·(B/T)(ω/c)²     friction in the string, the air it moves, its bending
//
// and a fourth at the bridge, where some of each wave goes into the body: of a wave that arrives,
// 2·Z₀·G is lost (Z₀ = √(Tμ) the string's impedance, G the conductance of the bridge).
type wire struct {
	from      float64 // Hz: notes from here up to the next wire's are played on this one
	tension   float64 // T, N
	mass      float64 // μ, kg/m
	stiffness float64 // B, N·m²
	friction  float64 // ηF
	bending   float64 // ηB
	air       float64 // ηA, 1/s
	bridge    float64 // G, s/kg
}

// decay returns how fast a partial at f Hz dies away on a string that sounds f0 Hz, in 1/s: it falls as
// e^(−σt).
func (w wire) decay(f, f0 float64) float64 {
	omega := 2 * math.Pi * f
	bend := w.bending * w.stiffness * w.mass / (w.tension * w.tension) * omega * omega
	inner := omega / 2 * (w.friction + w.air/omega + bend)
	bridge := 2 * f0 * math.Sqrt(w.tension*w.mass) * w.bridge
	return inner + bridge
}

// nylonGuitar is a set of nylon guitar strings as measured: Woodhouse, "Plucked guitar transients:
// comparison of measurements and synthesis", Acta Acustica united with Acustica 90, 2004, table 1.
// Below G3 they are wound. What the bridge takes is set so that partials die away as in the nylon
// guitar samples of Debian's fluid-soundfont-gm (MIT); those of the other sets from it, more for a lighter top and
// less for a stiffer one.
var nylonGuitar = []wire{
	{from: 0, tension: 71.6, mass: 6.24e-3, stiffness: 57e-6, friction: 2e-5, bending: 2e-2, air: 1.2, bridge: 0.006},          // E2
	{from: 110.0, tension: 73.9, mass: 3.61e-3, stiffness: 40e-6, friction: 7e-5, bending: 2.5e-2, air: 0.9, bridge: 0.01},     // A2
	{from: 146.8, tension: 71.2, mass: 1.95e-3, stiffness: 51e-6, friction: 5e-5, bending: 2e-2, air: 1.2, bridge: 0.00164},    // D3
	{from: 196.0, tension: 58.3, mass: 0.90e-3, stiffness: 310e-6, friction: 14e-5, bending: 2e-2, air: 1.7, bridge: 0.004},    // G3
	{from: 246.9, tension: 53.4, mass: 0.52e-3, stiffness: 160e-6, friction: 40e-5, bending: 2e-2, air: 1.2, bridge: 0.007},    // B3
	{from: 329.6, tension: 70.3, mass: 0.38e-3, stiffness: 130e-6, friction: 40e-5, bending: 2.4e-2, air: 1.5, bridge: 0.0157}, // E4
}

// plain returns a string of one round filament: its tension follows from its mass, its length and the
// note it is tuned to, T = μ(2Lf)², its stiffness from its thickness, B = E·πd⁴/64.
func plain(open, length, diameter, density, elasticity, friction, bending, air, bridge float64) wire {
	mass := density * math.Pi / 4 * diameter * diameter
	speed := 2 * length * open
	return wire{
		from: open, tension: mass * speed * speed, mass: mass,
		stiffness: elasticity * math.Pi / 64 * math.Pow(diameter, 4),
		friction:  friction, bending: bending, air: air, bridge: bridge,
	}
}

// Densities in kg/m³ and moduli of elasticity in N/m², from memory of materials tables: nylon 1140 and
// 5·10⁹ (drawn), fluorocarbon 1780 and 3·10⁹, steel 7850 and 2·10¹¹.
//
// Loss factors of nylon are those measured on the guitar's treble strings (above). Those of
// fluorocarbon and steel are from memory: fluorocarbon loses a little less to friction than nylon, steel
// several times less.

// nylonUkulele is a set of nylon strings on 350 mm. Diameters: common practice, no source.
var nylonUkulele = []wire{
	plain(261.6, 0.350, 0.86e-3, 1140, 5e9, 38e-5, 2.2e-2, 1.4, 0.012), // C4
	plain(329.6, 0.350, 0.71e-3, 1140, 5e9, 38e-5, 2.2e-2, 1.4, 0.025), // E4
	plain(392.0, 0.350, 0.61e-3, 1140, 5e9, 38e-5, 2.2e-2, 1.4, 0.025), // G4
	plain(440.0, 0.350, 0.56e-3, 1140, 5e9, 38e-5, 2.2e-2, 1.4, 0.02),  // A4
}

// fluorocarbonTenor is a set of fluorocarbon strings on 430 mm. Diameters: common practice, no source.
var fluorocarbonTenor = []wire{
	plain(261.6, 0.430, 0.78e-3, 1780, 3e9, 28e-5, 2e-2, 1.1, 0.005), // C4
	plain(329.6, 0.430, 0.62e-3, 1780, 3e9, 28e-5, 2e-2, 1.1, 0.007), // E4
	plain(392.0, 0.430, 0.57e-3, 1780, 3e9, 28e-5, 2e-2, 1.1, 0.007), // G4
	plain(440.0, 0.430, 0.52e-3, 1780, 3e9, 28e-5, 2e-2, 1.1, 0.007), // A4
}

// steelGuitar is a light set on 650 mm, wound below B3. Diameters: common practice, no source; the wound
// strings' masses and stiffnesses from memory.
var steelGuitar = []wire{
	{from: 0, tension: 108, mass: 9.2e-3, stiffness: 1.6e-4, friction: 1.5e-4, bending: 4e-3, air: 0.5, bridge: 0.002},
	{from: 110.0, tension: 125, mass: 6.1e-3, stiffness: 1.2e-4, friction: 1.3e-4, bending: 4e-3, air: 0.5, bridge: 0.002},
	{from: 146.8, tension: 130, mass: 3.6e-3, stiffness: 0.9e-4, friction: 1.2e-4, bending: 4e-3, air: 0.5, bridge: 0.002},
	{from: 196.0, tension: 125, mass: 1.9e-3, stiffness: 0.7e-4, friction: 1.0e-4, bending: 4e-3, air: 0.5, bridge: 0.002},
	plain(246.9, 0.650, 0.41e-3, 7850, 2e11, 1.0e-4, 4e-3, 0.6, 0.003), // B3
	plain(329.6, 0.650, 0.30e-3, 7850, 2e11, 1.0e-4, 4e-3, 0.6, 0.003), // E4
}

// steelMandolin is a light set on 350 mm, wound below A4. Diameters: common practice, no source.
var steelMandolin = []wire{
	plain(196.0, 0.350, 0.70e-3, 7850, 7e9, 1.5e-4, 5e-3, 0.7, 0.003),    // G3, wound: as heavy as steel, far less stiff
	plain(293.7, 0.350, 0.53e-3, 7850, 1.5e10, 1.4e-4, 5e-3, 0.7, 0.004), // D4, wound
	plain(440.0, 0.350, 0.36e-3, 7850, 2e11, 1.2e-4, 4e-3, 0.8, 0.005),   // A4
	plain(659.3, 0.350, 0.25e-3, 7850, 2e11, 1.2e-4, 4e-3, 0.9, 0.006),   // E5
}
