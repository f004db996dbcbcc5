package linehold.rig.adapter.pi4j;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.mockito.ArgumentMatchers.any;
import static org.mockito.ArgumentMatchers.anyInt;
import static org.mockito.ArgumentMatchers.anyString;
import static org.mockito.Mockito.doThrow;
import static org.mockito.Mockito.mock;
import static org.mockito.Mockito.when;

import com.pi4j.context.Context;
import com.pi4j.context.ContextProperties;
import com.pi4j.exception.InitializeException;
import com.pi4j.exception.Pi4JException;
import com.pi4j.io.gpio.digital.DigitalOutput;
import com.pi4j.io.gpio.digital.DigitalOutputConfig;
import com.pi4j.io.gpio.digital.DigitalState;
import com.pi4j.io.i2c.I2CConfig;
import com.pi4j.library.gpiod.internal.GpioDException;
import com.pi4j.library.gpiod.internal.GpioLine;
import linehold.rig.board.Converter;
import linehold.rig.board.Wire;
import linehold.simulator.build.InputException;
import org.junit.jupiter.api.Test;
import org.mockito.ArgumentCaptor;
import org.mockito.Mockito;

/** What Pi4J answers where a line or bus cannot be had becomes one sentence, and ends with status 2. */
class PiHardwareTest {
    private static final Wire.Output COIL = new Wire.Output(17, true);

    private final Context context = mock(Context.class);
    private final GpioLine line = mock(GpioLine.class);
    private final PiHardware hardware = new PiHardware(context, offset -> line);

    PiHardwareTest() {
        when(context.properties()).thenReturn(mock(ContextProperties.class));
    }

    @Test
    void shouldDeclareInitialAndShutdownStateOfAnOutput() {
        ArgumentCaptor<DigitalOutputConfig> config = ArgumentCaptor.forClass(DigitalOutputConfig.class);
        when(context.create(config.capture())).thenReturn(mock(DigitalOutput.class));

        hardware.output("lamp", new Wire.Output(24, true), true);
        assertThat(config.getValue().address()).isEqualTo(24);
        assertThat(config.getValue().id()).isEqualTo("linehold-lamp");
        assertThat(config.getValue().initialState()).isEqualTo(DigitalState.HIGH);
        assertThat(config.getValue().shutdownState()).isEqualTo(DigitalState.HIGH);
    }

    @Test
    void shouldSayThatALineIsBusy() {
        GpioDException busy = new GpioDException("c_gpiod_line_request_output failed: -1 (Device or resource busy)");
        when(context.create(any(DigitalOutputConfig.class)))
                .thenThrow(new IllegalStateException(
                        "Failed to initialize IO", new InitializeException("Failed to initialize output", busy)));

        assertThatThrownBy(() -> hardware.output("main-coil", COIL, false))
                .isInstanceOf(InputException.class)
                .hasMessage(
                        "main-coil: line 17: found it busy, expected it free; another linehold, or another program, holds"
                                + " it");
    }

    @Test
    void shouldSayThatAnInputIsBusyOrFails() {
        doThrow(new GpioDException("c_gpiod_line_request_input_flags failed: -1 (Device or resource busy)"))
                .when(line)
                .requestInputFlags(anyString(), anyInt());
        doThrow(new GpioDException("c_gpiod_line_request_both_edges_events_flags failed: -1 (Invalid argument)"))
                .when(line)
                .requestBothEdgeEventsFlags(anyString(), anyInt());

        assertThatThrownBy(() -> hardware.input("key", new Wire.Input(5, false, Wire.Pull.UP)))
                .isInstanceOf(InputException.class)
                .hasMessageStartingWith("key: line 5: found it busy");
        assertThatThrownBy(() -> hardware.edges("pickup", new Wire.Pickup(16, true, Wire.Pull.NONE)))
                .isInstanceOf(InputException.class)
                .hasMessage(
                        "pickup: line 16: found no way to open it (c_gpiod_line_request_both_edges_events_flags failed: -1"
                                + " (Invalid argument))");
    }

    @Test
    void shouldAskForThePullOfTheFile() {
        hardware.input("key", new Wire.Input(5, false, Wire.Pull.UP));
        // linux/gpio.h by way of libgpiod 1.6: bias disable 8, pull down 16, pull up 32.
        Mockito.verify(line).requestInputFlags("linehold-key", 32);
        hardware.edges("pickup", new Wire.Pickup(16, true, Wire.Pull.DOWN));
        Mockito.verify(line).requestBothEdgeEventsFlags("linehold-pickup", 16);
    }

    @Test
    void shouldSayThatThereIsNoSuchBus() {
        when(context.create(any(I2CConfig.class)))
                .thenThrow(
                        new Pi4JException("Devfs validation failed for I2C bus 7: path '/dev/i2c-7' does not exist."));

        assertThatThrownBy(() -> hardware.converter("adc-1", new Converter(7, 0x48, 1)))
                .isInstanceOf(InputException.class)
                .hasMessage(
                        "adc-1: bus 7: found no way to open it (Devfs validation failed for I2C bus 7: path '/dev/i2c-7'"
                                + " does not exist.)");
    }
}
