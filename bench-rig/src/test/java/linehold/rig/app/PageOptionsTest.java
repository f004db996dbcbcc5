package linehold.rig.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import linehold.rig.adapter.web.PageSettings;
import linehold.simulator.build.InputException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;

class PageOptionsTest {
    private static PageSettings settings(String... arguments) {
        PageOptions options = new PageOptions();
        CommandLine.populateCommand(options, arguments);
        return options.settings();
    }

    @Test
    void shouldListenOnThisMachineAloneWithoutATokenUnlessAsked() {
        PageSettings usual = settings();
        assertThat(usual.address().isLoopbackAddress()).isTrue();
        assertThat(usual.port()).isEqualTo(8230);
        assertThat(usual.token()).isNull();
        assertThat(settings("--listen", "127.0.0.1").token()).isNull();
    }

    /** The address is of those set aside for documentation (RFC 5737): nothing is opened here. */
    @Test
    void shouldDemandANewTokenOf128BitsForAnyOtherAddress() {
        PageSettings open = settings("--listen", "192.0.2.7", "--port", "9000");
        assertThat(open.address().getHostAddress()).isEqualTo("192.0.2.7");
        assertThat(open.port()).isEqualTo(9000);
        assertThat(open.token()).matches("[0-9a-f]{32}");
        assertThat(settings("--listen", "192.0.2.7").token()).isNotEqualTo(open.token());
    }

    @ParameterizedTest
    @ValueSource(strings = {"0.0.0.0", "::", "192.0.2.7.8"})
    void shouldRefuseEveryAddressAtOnceAndWhatIsNone(String address) {
        assertThatThrownBy(() -> settings("--listen", address))
                .isInstanceOf(InputException.class)
                .hasMessageStartingWith("--listen: found '" + address + "', expected");
    }

    @ParameterizedTest
    @ValueSource(strings = {"-1", "65536"})
    void shouldRefuseAPortThatIsNone(String port) {
        assertThatThrownBy(() -> settings("--port", port))
                .isInstanceOf(InputException.class)
                .hasMessage("--port: found " + port + ", expected a port from 0 to 65535");
    }
}
