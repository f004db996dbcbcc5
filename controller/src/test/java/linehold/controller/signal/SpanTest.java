package linehold.controller.signal;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class SpanTest {
    private final Span span = new Span();

    @Test
    void shouldMeasureFromLowestToHighestSinceTheStart() {
        span.restart(5);
        assertThat(span.width()).isZero();
        span.take(7);
        span.take(4);
        span.take(6);
        assertThat(span.width()).isEqualTo(3);
        span.restart(6);
        assertThat(span.width()).isZero();
    }

    @Test
    void shouldNotKnowAWidthBeforeTheStartOrWhereAValueIsMissing() {
        span.take(1);
        assertThat(span.width()).isNaN();
        span.restart(1);
        span.take(Double.NaN);
        span.take(2);
        assertThat(span.width()).isNaN();
    }
}
