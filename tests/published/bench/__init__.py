"""Values of the bench, topic by topic, with their sources beside them."""

from tests.published.bench.alignment import TOPIC_4
from tests.published.bench.bolts import TOPIC_6
from tests.published.bench.cooling import TOPIC_8
from tests.published.bench.paint import TOPIC_9
from tests.published.bench.steering import TOPIC_2
from tests.published.bench.weights import TOPIC_1
from tests.published.bench.wheels import TOPIC_5
from tests.published.bench.wiring import TOPIC_7

VALUES = [*TOPIC_1, *TOPIC_2, *TOPIC_4, *TOPIC_5, *TOPIC_6, *TOPIC_7, *TOPIC_8, *TOPIC_9]
