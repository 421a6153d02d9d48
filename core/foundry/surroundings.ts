/** What stands about hot moulds and crucibles. */

/** W/(mm²·K⁴): 5.670374419e-8 W/(m²·K⁴), Stefan and Boltzmann (CODATA 2018). */
export const stefanBoltzmann = 5.670374419e-14;

/** °C */
export const roomTemperature = 20;

/** Natural convection, W/(mm²·K): 10 W/(m²·K), the usual order (from memory: 5 to 25). */
export const stillAir = 10e-6;
