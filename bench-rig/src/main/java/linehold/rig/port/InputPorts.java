package linehold.rig.port;

/**
 * Where the controller's inputs come from; one component for each field of {@link linehold.controller.Inputs}, in its
 * unit.
 *
 * @param pressureSender V
 * @param pressureSenderSupply V
 * @param mainContact behind the contact of the main relay, V; a line that is only high or low reads as the bus or 0 V
 * @param standbyContact the same of the standby relay, V
 * @param pumpCurrent A
 * @param bus V
 * @param oilTemperature °C
 * @param torqueRequest N·m, signed
 */
public record InputPorts(
        PulseInput pickup,
        AnalogInput pressureSender,
        AnalogInput pressureSenderSupply,
        AnalogInput mainContact,
        AnalogInput standbyContact,
        AnalogInput pumpCurrent,
        AnalogInput bus,
        AnalogInput oilTemperature,
        SwitchInput key,
        SwitchInput brake,
        RangeInput range,
        AnalogInput torqueRequest) {}
